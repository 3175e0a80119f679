/** Street lamps that come on one after the other. */
import { z } from 'zod';
import { NamedLamp } from '../outputs.ts';
import { Id, Seconds, SecondsOrZero } from '../scalars.ts';
import { siteFields } from '../sites.ts';

export const StreetLamp = NamedLamp.extend({
  /** Default: warm-white. */
  colour: NamedLamp.shape.colour.optional(),
});

export const StreetLamps = z.strictObject({
  kind: z.literal('street-lamps'),
  ...siteFields,
  lamps: z.array(StreetLamp).min(1, { error: 'no-lamps' }),
  /** Lit as long as the board has power, or while the board's night switch is on. Default: always. */
  when: z.enum(['always', 'night']).optional(),
  /** Instead: an input that lights them while it is active. */
  switch: Id.optional(),
  /** One after the other along the list, or here and there. Default: scattered. */
  order: z.enum(['in-turn', 'scattered']).optional(),
  /** How often a lamp goes out again before it stays lit: none for a filament, two for a discharge lamp. Default: 2. */
  strikes: z.literal([0, 1, 2, 3]).optional(),
  /** From one lamp to the next, seconds. Default: the practice's. */
  pause: z.strictObject({ shortest: Seconds.optional(), longest: Seconds.optional() }).optional(),
  /** Length of each flicker of a lamp that strikes, seconds. Default: the practice's. */
  flicker: z.strictObject({ shortest: Seconds.optional(), longest: Seconds.optional() }).optional(),
  /** They stay lit or dark for at least this long, seconds: a dusk sensor may dither. Default: 1. */
  settle: SecondsOrZero.optional(),
});

export type StreetLamps = z.infer<typeof StreetLamps>;
