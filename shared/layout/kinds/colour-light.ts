/** Colour-light signals of a railway, by detectors ahead, by one detector, or by time. */
import { z } from 'zod';
import { Lamp } from '../outputs.ts';
import { Id, Seconds, SecondsOrZero } from '../scalars.ts';
import { siteFields } from '../sites.ts';

export const ColourLight = z.strictObject({
  kind: z.literal('colour-light'),
  ...siteFields,
  /** Two: red, green. Three: with yellow. Four: with double yellow. */
  aspects: z.literal([2, 3, 4]),
  /** `yellow` is the one that shows alone, the lower one of a four-aspect head. */
  lamps: z.strictObject({
    upperYellow: Lamp.optional(),
    green: Lamp.optional(),
    yellow: Lamp.optional(),
    red: Lamp.optional(),
  }),
  /**
   * Inputs that are active while a train is in the next section, in the one
   * after it, and so on. Signals of one line share them.
   */
  sections: z.array(Id).optional(),
  /** Instead: an input that is active while a train passes the signal. It clears step by step by time. */
  passing: Id.optional(),
  /** With sections: red for this much longer after the next one is clear, seconds. Default: the practice's. */
  overlap: SecondsOrZero.optional(),
  /** Without sections: how long the train is in each of them, seconds. Default: the practice's. */
  section: Seconds.optional(),
  /** With neither: a train passes by itself after a time of chance between these, seconds. Default: the practice's. */
  trains: z.strictObject({ shortest: Seconds.optional(), longest: Seconds.optional() }).optional(),
});

export type ColourLight = z.infer<typeof ColourLight>;
