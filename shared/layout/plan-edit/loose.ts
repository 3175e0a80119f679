/** Sites that have no place yet: where the plan stands them, and how they get a place of their own. */
import type { Layout } from '../schema.ts';

/** Room for one site where the layout has no measures, mm. */
export const CELL = 600;

/** A place with its turn, mm and degrees. */
export interface Standing {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** One for each site. Those without a place stand in rows, below everything that has one. */
export function placesOf({ sites, baseboard }: Layout): Standing[] {
  const placed = sites.flatMap(({ place }) => (place ? [place] : []));
  const top = placed.length === 0 ? 0 : Math.max(baseboard?.depth ?? 0, ...placed.map(({ y }) => y + CELL / 2));
  const loose = sites.length - placed.length;
  const columns = Math.max(1, Math.ceil(Math.sqrt(loose * 1.4)));
  let at = 0;
  return sites.map(({ place }) => {
    if (place) return { x: place.x, y: place.y, turn: place.turn ?? 0 };
    const cell = { x: at % columns, y: Math.floor(at / columns) };
    at += 1;
    return { x: (cell.x + 0.5) * CELL, y: top + (cell.y + 0.5) * CELL, turn: 0 };
  });
}

/** Room for all that has a place, mm. */
export function roomOf(layout: Layout): { readonly width: number; readonly depth: number } {
  const ends = [
    ...placesOf(layout).map(({ x, y }) => ({ x: x + CELL / 2, y: y + CELL / 2 })),
    ...(layout.roads ?? []).flatMap(({ points }) => points.map(([x, y]) => ({ x, y }))),
  ];
  return {
    width: Math.max(CELL, ...ends.map(({ x }) => x)),
    depth: Math.max(CELL, ...ends.map(({ y }) => y)),
  };
}

/** The layout with a place for each site and a baseboard under all of them: as the plan shows it without. */
export function settled(layout: Layout): Layout {
  const isLoose = layout.sites.some(({ place }) => place === undefined);
  if (!isLoose && layout.baseboard !== undefined) return layout;
  const places = placesOf(layout);
  const room = roomOf(layout);
  const { width, depth } = layout.baseboard ?? { width: 0, depth: 0 };
  const isLarge = layout.baseboard !== undefined && (!isLoose || (width >= room.width && depth >= room.depth));
  const sites = layout.sites.map((site, index) => {
    const found = places[index];
    return site.place || !found ? site : { ...site, place: { x: found.x, y: found.y } };
  });
  const baseboard = isLarge
    ? layout.baseboard
    : { width: Math.ceil(Math.max(width, room.width)), depth: Math.ceil(Math.max(depth, room.depth)) };
  return { ...layout, baseboard, sites };
}
