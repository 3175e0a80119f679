/** What the analogue converter can be switched to. */
import { type ADCMuxInput, ADCMuxInputType } from 'avr8js';

/** The internal reference; 1.1 V is its typical value. */
export const BANDGAP = { type: ADCMuxInputType.Constant, voltage: 1.1 } as const;

/** Single-ended channels by the number in MUX: those from 8 on begin at `upper`. */
export function channels(count: number, upper: number): Record<number, ADCMuxInput> {
  const all = Array.from({ length: count }, (_, channel) => channel);
  return Object.fromEntries(
    all.map((channel) => [
      channel < 8 ? channel : upper + channel - 8,
      { type: ADCMuxInputType.SingleEnded, channel } as const,
    ]),
  );
}
