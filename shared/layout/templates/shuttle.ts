import type { Shuttle } from '../kinds/shuttle.ts';
import type { Lamp } from '../outputs.ts';
import { type NewSite, siteOf, vehicleLamps } from './road-parts.ts';

/** Lamps of each head, for `allotLamps`: red, amber, green at each end. */
export const SHUTTLE_HEADS = [3, 3] as const;

export interface NewShuttle extends NewSite {
  /** Outputs of the heads of `SHUTTLE_HEADS`. */
  readonly lamps: readonly (readonly Lamp[])[];
  /** Ids of inputs, one for each end. Without them the greens come by time. */
  readonly detectors?: readonly [string, string];
  /** Length of the works on the baseboard, mm, and the scale as model to one, such as 76.2. */
  readonly works?: { readonly mm: number; readonly ratio: number };
}

/** Shuttle signals with the practice's times; the length of the works sets the time in which the lane clears. */
export function makeShuttle(wish: NewShuttle): Shuttle {
  const [first, second] = wish.lamps;
  const [one, other] = wish.detectors ?? [];
  const metres = wish.works && Math.round((wish.works.mm * wish.works.ratio) / 100) / 10;
  return {
    kind: 'shuttle',
    ...siteOf(wish),
    ends: [
      { id: 'up', name: 'Upper end', lamps: vehicleLamps(first ?? []), arm: 0, ...(one && { detector: one }) },
      { id: 'down', name: 'Lower end', lamps: vehicleLamps(second ?? []), arm: 180, ...(other && { detector: other }) },
    ],
    ...(metres && { length: metres }),
  };
}
