/** Rules of the owner's own: another practice with some of its values changed. */
import { z } from 'zod';
import { Id, Name, SecondsOrZero } from './scalars.ts';

export const CustomPractice = z.strictObject({
  /** Id of the practice that everything else is taken from. */
  from: Id,
  name: Name,
  /**
   * By the place of the value: `{ "junction.amber": 2.5, "pelican.exists": true,
   * "crossing.redWithAmber": null }`. Times in seconds, the walking speed in
   * metres a second; null takes an aspect away. shared/practice/custom says
   * which places there are.
   */
  changes: z.record(z.string(), z.union([SecondsOrZero, z.boolean(), z.string(), z.null()])),
});

export type CustomPractice = z.infer<typeof CustomPractice>;
