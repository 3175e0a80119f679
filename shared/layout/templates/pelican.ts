import type { Pelican } from '../kinds/pelican.ts';
import type { Lamp } from '../outputs.ts';
import { figureLamps, type NewSite, siteOf, vehicleLamps } from './road-parts.ts';

/** Lamps of each head, for `allotLamps`: red, amber, green; red and green figure. */
export const PELICAN_HEADS = [3, 2] as const;

export interface NewPelican extends NewSite {
  /** Outputs of the heads of `PELICAN_HEADS`. */
  readonly lamps: readonly (readonly Lamp[])[];
  /** Ids of inputs. Without any, people cross by time. */
  readonly buttons?: readonly string[];
}

/** A pelican with the practice's times, both heads of each kind on shared outputs, facing up and down the road. */
export function makePelican(wish: NewPelican): Pelican {
  const [vehicles, figures] = wish.lamps;
  return {
    kind: 'pelican',
    ...siteOf(wish),
    vehicles: vehicleLamps(vehicles ?? []),
    pedestrians: figureLamps(figures ?? []),
    heads: crossingHeads(),
    ...(wish.buttons?.length && { buttons: [...wish.buttons] }),
  };
}

/** Vehicles from both ends of the road, figures on both sides of it; all on the shared outputs. */
export function crossingHeads(): NonNullable<Pelican['heads']> {
  return [
    { id: 'up', name: 'Traffic from above', kind: 'vehicle', arm: 0 },
    { id: 'down', name: 'Traffic from below', kind: 'vehicle', arm: 180 },
    { id: 'left', name: 'People on the left', kind: 'pedestrian', arm: 270 },
    { id: 'right', name: 'People on the right', kind: 'pedestrian', arm: 90 },
  ];
}
