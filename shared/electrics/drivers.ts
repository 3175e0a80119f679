/** Drivers for what an output cannot carry: a transistor behind it, or a power shift register. */
import { nextGreater, type Series } from './preferred.ts';
import { SMALL_TRANSISTOR } from './profiles/limits.ts';

export interface Base {
  /** Resistor between output and base, ohms. */
  readonly ohms: number;
  /** What the output gives through it, mA. */
  readonly milliamps: number;
}

/** Least base current, mA: below it a transistor hangs on its leakage and on noise; common practice, no source. */
const LEAST_BASE = 1;

/**
 * The base resistor that surely switches a small NPN transistor on for a collector current, mA: a twentieth of it
 * into the base. The transistor is low side: emitter to ground, lamps between collector and their supply.
 */
export function baseOf(collector: number, boardVolts: number, series: Series): Base {
  const wanted = Math.max(LEAST_BASE, collector / SMALL_TRANSISTOR.forcedGain.value);
  const volts = Math.max(0, boardVolts - SMALL_TRANSISTOR.baseVolts.value);
  const ohms = nextGreater(volts / (wanted / 1000), series) ?? 1000;
  return { ohms, milliamps: (volts / ohms) * 1000 };
}
