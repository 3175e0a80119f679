/** How large symbols and letters are wanted on the screen. */
import type { Distance } from '../model/preferences.ts';

/** px: radius of a lamp, name of a site, name of a road; 0: not shown. `figures`: what runs stands below each name. */
export interface Sizes {
  readonly lamp: number;
  readonly name: number;
  readonly road: number;
  readonly figures: boolean;
}

const SIZES: Readonly<Record<Distance, Sizes>> = {
  room: { lamp: 20, name: 32, road: 0, figures: false },
  layout: { lamp: 14, name: 20, road: 16, figures: true },
  desk: { lamp: 11, name: 16, road: 14, figures: true },
};

/** Above so many sites their names are smaller and what runs is told in the panel; across the room names would be all there is. */
const MANY = 8;
const CROWDED: Readonly<Record<Distance, number>> = { room: 0, layout: 15, desk: 14 };

/** Less room for each site than this, px²: its name in large letters would cover lamps. */
const LEAST_ROOM: Readonly<Record<Distance, number>> = { room: 0, layout: 75_000, desk: 0 };

/** `seen`: how many sites are in sight at once, or would be if they stood evenly; `room`: px² for all of them. */
export function sizesFor(distance: Distance, seen: number, room: number): Sizes {
  const sizes = SIZES[distance];
  const isCrowded = seen > MANY || room / seen < LEAST_ROOM[distance];
  return isCrowded ? { ...sizes, name: CROWDED[distance], figures: false } : sizes;
}
