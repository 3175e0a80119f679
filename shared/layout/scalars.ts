/**
 * The small values of the layout document. Each message is the code of a
 * finding; translate.ts has the words for it.
 */
import { z } from 'zod';

/** Longest time that a board can hold, seconds (firmware/PROTOCOL.md, time word). */
export const LONGEST_TIME = 32767;
/** Up to here a time may have hundredths of a second; beyond, whole seconds only. */
export const LONGEST_FINE_TIME = 327.67;

const underZero = (issue: { readonly input?: unknown }): string =>
  typeof issue.input === 'number' && issue.input < 0 ? 'negative-time' : 'zero-time';

const number = z.number({ error: (issue) => (issue.input === undefined ? undefined : 'not-a-number') });

const fits = (time: z.ZodNumber) =>
  time
    .max(LONGEST_TIME, { error: 'time-too-long' })
    .multipleOf(0.01, { error: 'time-step' })
    .refine((value) => value <= LONGEST_FINE_TIME || Number.isInteger(value), { error: 'time-step' });

/** A span of time in seconds, more than zero. */
export const Seconds = fits(number.gt(0, { error: underZero }));
/** A span of time in seconds that may be zero. */
export const SecondsOrZero = fits(number.gte(0, { error: 'negative-time' }));

/** Short name by which other parts of the file speak of a thing. */
export const Id = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$/, { error: 'bad-id' })
  .describe('Short name: letters, digits, hyphens.');

/** What people read: free text on one line. */
export const Name = z.string().trim().min(1, { error: 'empty-name' }).max(60, { error: 'long-name' });

/** Share of the full value, 0 to 100. */
export const Percent = number.min(0, { error: 'bad-percent' }).max(100, { error: 'bad-percent' });

export const Count = number.int({ error: 'not-whole' }).min(0, { error: 'not-whole' });

/** Seconds of the file to whole milliseconds of the tables. */
export function toMs(seconds: number): number {
  return Math.round(seconds * 1000);
}
