/**
 * The analogue converter with the moment of its sample: avr8js reads a voltage when a conversion begins, the chip 1.5
 * ADC clocks after its begin, and 13.5 clocks later in the first conversion after it was switched on.
 */
import { type ADCMuxInput, ADCMuxInputType, AVRADC, type CPU } from 'avr8js';
import { SAMPLE_AFTER } from '../../../shared/electrics/circuit/facts.ts';
import type { ChipProfile } from './chips.ts';

/** What the converter can see; volts. */
export interface Analogue {
  /** At a channel now. */
  channel(channel: number): number;
  /** Of the board's supply, which is also the reference. */
  supply(): number;
  /** Added to each reading, of 1,024. */
  error(): number;
}

/** Clocks of the first conversion, and by how much its sample is later. */
const FIRST = 25;
const FIRST_LATER = 12;

export function addConverter(cpu: CPU, config: ChipProfile['adc'], analogue: Analogue): void {
  const adc = new AVRADC(cpu, config);
  const volts = (input: ADCMuxInput): number => {
    if (input.type === ADCMuxInputType.Constant) return input.voltage;
    if (input.type === ADCMuxInputType.SingleEnded) return analogue.channel(input.channel);
    return 0;
  };
  adc.onADCRead = (input) => {
    const { prescaler, sampleCycles } = adc;
    const first = sampleCycles >= FIRST * prescaler;
    // The divider runs on by itself: a conversion begins with its next clock.
    const begin = (prescaler - (cpu.cycles % prescaler)) % prescaler;
    const sampleAt = begin + (SAMPLE_AFTER.value + (first ? FIRST_LATER : 0)) * prescaler;
    cpu.addClockEvent(() => {
      adc.avcc = analogue.supply();
      // Nothing is wired to AREF but its capacitor.
      adc.aref = adc.avcc;
      const share = volts(input) / adc.referenceVoltage;
      const error = input.type === ADCMuxInputType.SingleEnded ? analogue.error() : 0;
      const reading = Math.min(1023, Math.max(0, Math.floor(share * 1024) + error));
      cpu.addClockEvent(() => adc.completeADCRead(reading), begin + sampleCycles - sampleAt);
    }, sampleAt);
  };
}
