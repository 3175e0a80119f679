/** Crossing with flashing amber for vehicles and a flashing green figure. */
import { z } from 'zod';
import { Seconds, SecondsOrZero } from '../scalars.ts';
import { siteFields } from '../sites.ts';
import { crossingFields } from './road-heads.ts';

export const Pelican = z.strictObject({
  kind: z.literal('pelican'),
  ...siteFields,
  ...crossingFields,
  /** A: vehicles have green at least this long. This and all other times: seconds, default the practice's. */
  vehicleGreen: Seconds.optional(),
  /** B. */
  amber: Seconds.optional(),
  /** C: everything red before the green figure; 0 for none. */
  allRed: SecondsOrZero.optional(),
  /** D: steady green figure. */
  steadyGreen: Seconds.optional(),
  /** E: green figure flashes while vehicles still have red; 0 for none. */
  heldFlashing: SecondsOrZero.optional(),
  /** F: green figure and amber flash. */
  flashing: Seconds.optional(),
  /** G: amber still flashes, the figure is red; 0 for none. */
  clearance: SecondsOrZero.optional(),
  flashOn: Seconds.optional(),
  flashOff: Seconds.optional(),
});

export type Pelican = z.infer<typeof Pelican>;
