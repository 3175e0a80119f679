/** A place next to another one, with room around it. */
import type { Place } from '../places.ts';
import type { Layout } from '../schema.ts';

/** How far away is looked, mm. */
const STEPS = [220, 320, 440, 600];
/** Enough room for the heads of two sites, mm. */
const ROOM = 200;
const EDGE = 60;

/** Undefined where the site has no place either. */
export function placeBeside(layout: Layout, place: Place | undefined): Place | undefined {
  if (place === undefined) return undefined;
  const spots = STEPS.flatMap((step) =>
    // First along the site's own road, which a crossing stands across: its up.
    [0, 180, 90, 270].map((angle) => {
      const turned = (((place.turn ?? 0) + angle) * Math.PI) / 180;
      return { x: Math.round(place.x + Math.sin(turned) * step), y: Math.round(place.y - Math.cos(turned) * step) };
    }),
  ).filter((spot) => isOn(layout, spot));
  const roomAt = (spot: { x: number; y: number }): number =>
    Math.min(...layout.sites.map(({ place: at }) => (at ? Math.hypot(at.x - spot.x, at.y - spot.y) : ROOM)));
  const best = spots.find((spot) => roomAt(spot) >= ROOM) ?? spots.sort((a, b) => roomAt(b) - roomAt(a))[0];
  return { ...place, ...(best ?? { x: place.x, y: place.y }) };
}

function isOn({ baseboard }: Layout, { x, y }: { readonly x: number; readonly y: number }): boolean {
  if (x < EDGE || y < EDGE) return false;
  return baseboard === undefined || (x <= baseboard.width - EDGE && y <= baseboard.depth - EDGE);
}
