import type { Crossing } from '../kinds/crossing.ts';
import type { Lamp } from '../outputs.ts';
import { crossingHeads } from './pelican.ts';
import { figureLamps, type NewSite, siteOf, vehicleLamps } from './road-parts.ts';

/** Lamps of each head, for `allotLamps`: red, amber, green; red and green figure. */
export const CROSSING_HEADS = [3, 2] as const;

export interface NewCrossing extends NewSite {
  /** Outputs of the heads of `CROSSING_HEADS`. */
  readonly lamps: readonly (readonly Lamp[])[];
  /** Ids of inputs. Without any, people cross by time. */
  readonly buttons?: readonly string[];
  /** Default: far. */
  readonly figures?: 'far' | 'near';
  /** Ids of inputs, for near-side figures. */
  readonly kerbDetectors?: readonly string[];
  readonly onCrossingDetectors?: readonly string[];
}

/** A signal-controlled crossing with the practice's times, heads of each kind on shared outputs. */
export function makeCrossing(wish: NewCrossing): Crossing {
  const [vehicles, figures] = wish.lamps;
  return {
    kind: 'crossing',
    ...siteOf(wish),
    vehicles: vehicleLamps(vehicles ?? []),
    pedestrians: figureLamps(figures ?? []),
    heads: crossingHeads(),
    ...(wish.buttons?.length && { buttons: [...wish.buttons] }),
    ...(wish.figures && { figures: wish.figures }),
    ...(wish.kerbDetectors?.length && { kerbDetectors: [...wish.kerbDetectors] }),
    ...(wish.onCrossingDetectors?.length && { onCrossingDetectors: [...wish.onCrossingDetectors] }),
  };
}
