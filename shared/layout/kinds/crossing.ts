/** Signal-controlled crossing without flashing amber: far-side figures as today, or near-side ones with detectors. */
import { z } from 'zod';
import { Id, Seconds, SecondsOrZero } from '../scalars.ts';
import { siteFields } from '../sites.ts';
import { crossingFields } from './road-heads.ts';

export const Crossing = z.strictObject({
  kind: z.literal('crossing'),
  ...siteFields,
  ...crossingFields,
  /** Where the figures stand. Near-side ones show red while people finish. Default: far. */
  figures: z.enum(['far', 'near']).optional(),
  /** Inputs that are active while somebody waits at the kerb: a demand is dropped when nobody does any more. */
  kerbDetectors: z.array(Id).optional(),
  /** Inputs that are active while somebody is on the crossing: the clearance lasts until nobody is. */
  onCrossingDetectors: z.array(Id).optional(),
  /** Vehicles have green at least this long. This and all other times: seconds, default the practice's. */
  vehicleGreen: Seconds.optional(),
  amber: Seconds.optional(),
  /** Everything red before the green figure; 0 for none. */
  allRedBefore: SecondsOrZero.optional(),
  /** Green figure. */
  walk: Seconds.optional(),
  /** After it, while people finish. */
  clearance: Seconds.optional(),
  /** How much the detectors on the crossing can add to the clearance. */
  extension: Seconds.optional(),
  /** Everything red before the vehicles start; 0 for none. */
  allRedAfter: SecondsOrZero.optional(),
  redWithAmber: Seconds.optional(),
  flashOn: Seconds.optional(),
  flashOff: Seconds.optional(),
});

export type Crossing = z.infer<typeof Crossing>;
