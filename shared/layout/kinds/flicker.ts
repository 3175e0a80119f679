/** Light that has no rhythm: a fire, a welder at work. */
import { z } from 'zod';
import { NamedLamp } from '../outputs.ts';
import { Id, Seconds } from '../scalars.ts';
import { siteFields } from '../sites.ts';

export const FlickerLamp = NamedLamp.extend({
  /** Default: white for welding; red, amber and yellow in turn for a fire. */
  colour: NamedLamp.shape.colour.optional(),
});

const Between = z.strictObject({ shortest: Seconds.optional(), longest: Seconds.optional() });

export const Flicker = z.strictObject({
  kind: z.literal('flicker'),
  ...siteFields,
  effect: z.enum(['fire', 'welding']),
  lamps: z.array(FlickerLamp).min(1, { error: 'no-lamps' }),
  /** An input that lights it while it is active. Default: it always burns. */
  switch: Id.optional(),
  /** Each lit or dark moment, seconds. Default: the practice's. */
  moments: Between.optional(),
  /** Welding: from one burst to the next, seconds. Default: the practice's. */
  rest: Between.optional(),
});

export type Flicker = z.infer<typeof Flicker>;
