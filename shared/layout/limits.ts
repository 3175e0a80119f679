/** Limits of times that the owner has set against those of the practice, each with a reason. */
import { z } from 'zod';
import { SecondsOrZero } from './scalars.ts';

export const TimeLimit = z.strictObject({
  /** Seconds. Default: as without this entry, as with `greatest`. */
  least: SecondsOrZero.optional(),
  greatest: SecondsOrZero.optional(),
  /** Why, in the owner's words. */
  reason: z.string().trim().min(1, { error: 'empty-name' }).max(200, { error: 'long-name' }),
});

/** By the id of the dial within its site, such as `green-1`. */
export const TimeLimits = z.record(z.string().min(1).max(64), TimeLimit);

export type TimeLimit = z.infer<typeof TimeLimit>;
