/** A site is moved or turned on the baseboard. */
import { between, withinTurn } from '../new-site/geometry.ts';
import type { Place, Road } from '../places.ts';
import type { Layout } from '../schema.ts';
import { isMeeting } from './kinds.ts';
import { settled } from './loose.ts';

/** A point of a road that is so near to a site belongs to it, mm. */
const AT = 1.5;

/**
 * What is not given stays. Places are whole mm on the baseboard, turns whole degrees. Roads that end at the site
 * come along, as does every point of a road at a junction. The same layout where nothing changes.
 */
export function standSite(layout: Layout, siteId: string, to: Partial<Place>): Layout {
  const all = settled(layout);
  const site = all.sites.find(({ id }) => id === siteId);
  if (!site?.place) return layout;
  const { place } = site;
  const turn = withinTurn(Math.round(to.turn ?? place.turn ?? 0));
  const next = {
    x: within(to.x ?? place.x, all.baseboard?.width),
    y: within(to.y ?? place.y, all.baseboard?.depth),
  };
  const isMoved = next.x !== place.x || next.y !== place.y;
  if (!isMoved && turn === (place.turn ?? 0)) return layout;
  const sites = all.sites.map((it) =>
    it === site ? { ...it, place: { ...next, ...(turn !== 0 || place.turn !== undefined ? { turn } : {}) } } : it,
  );
  if (!isMoved || all.roads === undefined) return { ...all, sites };
  return { ...all, sites, roads: all.roads.map((road) => follow(road, place, next, isMeeting(site))) };
}

function follow(road: Road, from: Place, to: { x: number; y: number }, withAll: boolean): Road {
  const last = road.points.length - 1;
  const points = road.points.map(([x, y], index): [number, number] => {
    const canFollow = withAll || index === 0 || index === last;
    return canFollow && between({ x, y }, from) <= AT ? [to.x, to.y] : [x, y];
  });
  return points.every(([x, y], at) => x === road.points[at]?.[0] && y === road.points[at]?.[1])
    ? road
    : { ...road, points };
}

function within(value: number, most: number | undefined): number {
  return Math.round(Math.max(0, most === undefined ? value : Math.min(most, value)));
}
