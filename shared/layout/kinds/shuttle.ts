/** One lane past road works: a head at each end, one end at a time. */
import { z } from 'zod';
import { Angle } from '../places.ts';
import { Id, Name, Seconds, SecondsOrZero } from '../scalars.ts';
import { siteFields } from '../sites.ts';
import { VehicleLamps } from './road-heads.ts';

export const ShuttleEnd = z.strictObject({
  id: Id,
  name: Name,
  lamps: VehicleLamps.optional(),
  /** Where the traffic that faces the head comes from, degrees clockwise from the site's up (its `turn`). */
  arm: Angle.optional(),
  /** Input of the vehicle detector before the head. */
  detector: Id.optional(),
  /** Seconds; with detectors the longest green. Default: the practice's. */
  green: Seconds.optional(),
});

export const Shuttle = z.strictObject({
  kind: z.literal('shuttle'),
  ...siteFields,
  /** With a detector at each end the greens follow the traffic; else they come by time. */
  ends: z.tuple([ShuttleEnd, ShuttleEnd]),
  /** Length of the works, metres of the real road: with `speed` it gives the time in which the lane clears. */
  length: z.number().gt(0).optional(),
  /** Of the slowest traffic through the works, km/h. Default: 24. */
  speed: z.number().gt(0).optional(),
  /** Everything red while the lane clears, seconds. Default: from the length, else the practice's. */
  allRed: SecondsOrZero.optional(),
  /** Seconds. Default: the practice's, as with all that follow. */
  minGreen: Seconds.optional(),
  /** A green ends when no vehicle has come for this long, seconds. */
  gap: Seconds.optional(),
  amber: Seconds.optional(),
  redWithAmber: Seconds.optional(),
});

export type ShuttleEnd = z.infer<typeof ShuttleEnd>;
export type Shuttle = z.infer<typeof Shuttle>;
