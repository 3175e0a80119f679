/** Road lights of a level crossing: amber, then red lamps for as long as a train is near. */
import { z } from 'zod';
import { Lamp } from '../outputs.ts';
import { Angle } from '../places.ts';
import { Id, Name, Seconds } from '../scalars.ts';
import { siteFields } from '../sites.ts';

/** The lamps of one head: amber below, between two reds. A head with one steady red has only `left`. */
export const CrossingLights = z.strictObject({
  amber: Lamp.optional(),
  left: Lamp.optional(),
  right: Lamp.optional(),
});

export const LevelCrossing = z.strictObject({
  kind: z.literal('level-crossing'),
  ...siteFields,
  /** Outputs shared by all heads. */
  lights: CrossingLights.optional(),
  heads: z
    .array(
      z.strictObject({
        id: Id,
        name: Name,
        /** Where the traffic that faces it comes from, degrees clockwise from the site's up (its `turn`). */
        arm: Angle.optional(),
        /** Only where this head has outputs of its own, beside the shared ones. */
        lights: CrossingLights.optional(),
      }),
    )
    .optional(),
  /** Inputs that are active while a train is near, such as one for each direction. Without any: by time. */
  detectors: z.array(Id).optional(),
  /** By time: seconds without a train, drawn anew each time from `least` to `most`; equal ones make it regular. */
  quiet: z.strictObject({ least: Seconds, most: Seconds }).optional(),
  /** By time: the reds last this long, seconds. */
  passing: Seconds.optional(),
  /** The reds last this much longer after the last detector, so that a gap between wagons does not count. Default: none. */
  clearAfter: Seconds.optional(),
  /** Seconds. Default: the practice's. */
  amber: Seconds.optional(),
  /** Seconds; the reds last at least this long. Default: the practice's. */
  leastRed: Seconds.optional(),
  flashOn: Seconds.optional(),
  flashOff: Seconds.optional(),
});

export type CrossingLights = z.infer<typeof CrossingLights>;
export type LevelCrossing = z.infer<typeof LevelCrossing>;
