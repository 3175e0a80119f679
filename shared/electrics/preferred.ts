/** Preferred values of resistors. */
import { type Fact, fact } from '../practice/fact.ts';

export type Series = 'E12' | 'E24';

const IEC_60063 = 'IEC 60063, series E12 and E24';

/** One decade of each series, from 10 on. */
export const SERIES: Readonly<Record<Series, Fact<readonly number[]>>> = {
  E12: fact([10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82], 'seen', IEC_60063),
  E24: fact(
    [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91],
    'seen',
    IEC_60063,
  ),
};

/** Smallest and largest resistor that shops keep, ohms; common practice, no source. */
export const LEAST_OHMS = 1;
export const MOST_OHMS = 10_000_000;

/** What a calculation may be off by, so that 330.00000000000006 is still 330. */
const SLACK = 1e-9;

/**
 * The next preferred value that is not below `ohms`: a smaller resistor would let more current through than wanted.
 * 1 ohm at least; null above 10 megohms, and for what is no figure.
 */
export function nextGreater(ohms: number, series: Series): number | null {
  if (!Number.isFinite(ohms) || ohms > MOST_OHMS * (1 + SLACK)) return null;
  const wanted = Math.max(LEAST_OHMS, ohms) * (1 - SLACK);
  for (let decade = -1; decade <= 6; decade += 1) {
    for (const step of SERIES[series].value) {
      const value = stepValue(step, decade);
      if (value >= wanted) return value;
    }
  }
  return null;
}

/** Whether a value is one of the series, in any decade. */
export function isPreferred(ohms: number, series: Series): boolean {
  const next = nextGreater(ohms, series);
  return next !== null && Math.abs(next - ohms) <= ohms * SLACK;
}

/** Powers of ten by division where they are below one: 47 / 10 is 4.7, 47 * 0.1 is not. */
function stepValue(step: number, decade: number): number {
  return decade < 0 ? step / 10 ** -decade : step * 10 ** decade;
}
