/** A place next to another one, with room around it. */
import type { Place } from '../places.ts';
import type { Layout, Site } from '../schema.ts';

/** Room for the heads of two sites, mm: a junction has them on all sides. */
const ROOM = { junction: 360, other: 220 };
/** How far away is looked, in such rooms. */
const STEPS = [1, 1.5, 2, 2.75];
const EDGE = 60;

/** Undefined where the site has no place either. */
export function placeBeside(layout: Layout, { kind, place }: Pick<Site, 'kind' | 'place'>): Place | undefined {
  if (place === undefined) return undefined;
  const room = ROOM[kind === 'junction' ? kind : 'other'];
  const spots = STEPS.flatMap((step) =>
    // First along the site's own road, which a crossing stands across: its up.
    [0, 180, 90, 270].map((angle) => {
      const turned = (((place.turn ?? 0) + angle) * Math.PI) / 180;
      return {
        x: Math.round(place.x + Math.sin(turned) * step * room),
        y: Math.round(place.y - Math.cos(turned) * step * room),
      };
    }),
  ).filter((spot) => isOn(layout, spot));
  const roomAt = (spot: { x: number; y: number }): number =>
    Math.min(...layout.sites.map(({ place: at }) => (at ? Math.hypot(at.x - spot.x, at.y - spot.y) : room)));
  const best = spots.find((spot) => roomAt(spot) >= room) ?? spots.sort((a, b) => roomAt(b) - roomAt(a))[0];
  return { ...place, ...(best ?? { x: place.x, y: place.y }) };
}

function isOn({ baseboard }: Layout, { x, y }: { readonly x: number; readonly y: number }): boolean {
  if (x < EDGE || y < EDGE) return false;
  return baseboard === undefined || (x <= baseboard.width - EDGE && y <= baseboard.depth - EDGE);
}
