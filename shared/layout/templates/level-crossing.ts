import type { LevelCrossing } from '../kinds/level-crossing.ts';
import type { Lamp } from '../outputs.ts';
import { type NewSite, siteOf } from './road-parts.ts';

/** Lamps of the shared head, for `allotLamps`: amber, left red, right red; or the two reds before September 1969. */
export const LEVEL_CROSSING_HEADS = { withAmber: [3], withoutAmber: [2] } as const;

export interface NewLevelCrossing extends NewSite {
  /** Three outputs, or two where the practice has no amber. */
  readonly lamps: readonly Lamp[];
  /** Ids of inputs, such as one for each direction. Without any, trains come by time. */
  readonly detectors?: readonly string[];
  /** By time: seconds without a train. Equal ones make it regular. */
  readonly quiet?: { readonly least: number; readonly most: number };
}

/** Road lights with the practice's times, the heads of both roads on shared outputs. */
export function makeLevelCrossing(wish: NewLevelCrossing): LevelCrossing {
  const reds = wish.lamps.slice(-2);
  const amber = wish.lamps.length > 2 ? wish.lamps[0] : undefined;
  return {
    kind: 'level-crossing',
    ...siteOf(wish),
    lights: { ...(amber && { amber }), ...(reds[0] && { left: reds[0] }), ...(reds[1] && { right: reds[1] }) },
    heads: [
      { id: 'up', name: 'Traffic from above', arm: 0 },
      { id: 'down', name: 'Traffic from below', arm: 180 },
    ],
    ...(wish.detectors?.length && { detectors: [...wish.detectors] }),
    ...(wish.quiet && { quiet: { ...wish.quiet } }),
  };
}
