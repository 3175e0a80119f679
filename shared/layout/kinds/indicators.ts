/** Direction indicators and hazard lamps of one vehicle. */
import { z } from 'zod';
import { NamedLamp } from '../outputs.ts';
import { Id, Seconds } from '../scalars.ts';
import { siteFields } from '../sites.ts';

export const Indicator = NamedLamp.extend({
  /** Default: amber. */
  colour: NamedLamp.shape.colour.optional(),
  /** Side of the vehicle, seen from its driver. */
  side: z.enum(['left', 'right']),
});

export const Indicators = z.strictObject({
  kind: z.literal('indicators'),
  ...siteFields,
  lamps: z.array(Indicator).min(1, { error: 'no-lamps' }),
  /** Inputs that let one side flash, or both, while they are active. */
  switches: z.strictObject({ left: Id.optional(), right: Id.optional(), hazard: Id.optional() }).optional(),
  /** Without switches: what flashes all the time. Default: hazard, which is both sides. */
  shows: z.enum(['left', 'right', 'hazard']).optional(),
  /** Seconds. Default: the practice's. */
  on: Seconds.optional(),
  off: Seconds.optional(),
});

export type Indicators = z.infer<typeof Indicators>;
