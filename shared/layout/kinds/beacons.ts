/** Beacons of emergency and works vehicles. */
import { z } from 'zod';
import { NamedLamp } from '../outputs.ts';
import { Id, Seconds } from '../scalars.ts';
import { siteFields } from '../sites.ts';

export const WarningBeacon = NamedLamp.extend({
  /** Default: blue. */
  colour: NamedLamp.shape.colour.optional(),
});

export const Beacons = z.strictObject({
  kind: z.literal('beacons'),
  ...siteFields,
  /** The first belongs to one side, the second to the other, and so on. */
  lamps: z.array(WarningBeacon).min(1, { error: 'no-lamps' }),
  /** Default: alternate. */
  flash: z.enum(['together', 'alternate', 'double', 'double-together']).optional(),
  /** An input that lets them flash while it is active. Default: they always do. */
  switch: Id.optional(),
  /** Lit and dark part of a flash, seconds. A double flash uses `on` for both. Default: the practice's. */
  on: Seconds.optional(),
  off: Seconds.optional(),
  /** Dark after a double flash, seconds. Default: the practice's. */
  pause: Seconds.optional(),
});

export type Beacons = z.infer<typeof Beacons>;
