/** Baseboard and roads of the plan, also where the layout does not say. */
import { isAcross } from '../../shared/layout/plan-edit/kinds.ts';
import { CELL, placesOf } from '../../shared/layout/plan-edit/loose.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { angleOf, dot, length, minus, nearestOn, type Point, plus, rightOf, towards, unit } from './vectors.ts';

export interface PlanRoad {
  readonly id: string;
  readonly name: string;
  readonly width: number;
  readonly points: readonly Point[];
}

/** Middle of a site; `turn` is where its own up points to. */
export interface PlanPlace extends Point {
  readonly turn: number;
}

export interface Ground {
  readonly width: number;
  readonly depth: number;
  readonly roads: readonly PlanRoad[];
  /** One for each site of the layout. */
  readonly places: readonly PlanPlace[];
}

/** Where the layout has no measures, mm. */
const ROAD = 96;

export function groundOf(layout: Layout): Ground {
  const places = placesOf(layout);
  const given = (layout.roads ?? []).map(({ id, name, width, points }) => ({
    id,
    name,
    width,
    points: points.map(([x, y]) => ({ x, y })),
  }));
  const stubs = layout.sites.flatMap((site, index) => {
    const place = places[index];
    if (!place) return [];
    const arms = roadArms(given, place);
    const isOnRoad = given.some((road) => offRoad(road, place) < road.width / 2);
    if (isOnRoad && site.kind !== 'junction') return [];
    return stubsOf(site, place, (direction) => armTowards(arms, direction) !== null);
  });
  const roads = [...given, ...stubs];
  const reach = [
    ...places.map((place) => plus(place, { x: CELL / 2, y: CELL / 2 })),
    ...roads.flatMap((it) => it.points),
  ];
  const { width, depth } = layout.baseboard ?? {
    width: Math.max(CELL, ...reach.map(({ x }) => x)),
    depth: Math.max(CELL, ...reach.map(({ y }) => y)),
  };
  return { width, depth, roads, places };
}

/** Short pieces of road where a site has none. */
function stubsOf(site: Layout['sites'][number], place: PlanPlace, hasRoad: (direction: Point) => boolean): PlanRoad[] {
  const arms = roadsOf(site);
  const bare = [...new Set(arms)].filter((arm) => !hasRoad(towards(place.turn + arm)));
  return bare.map((arm) => ({
    id: `${site.id} ${arm}`,
    name: '',
    width: ROAD,
    points: [place, plus(place, towards(place.turn + arm), CELL / 2)],
  }));
}

/** Directions in which a site of its kind has a road, from its own up. */
function roadsOf(site: Layout['sites'][number]): number[] {
  if (site.kind === 'junction') return armsOf(site).map((arm) => arm.angle);
  return isAcross(site) ? [0, 180] : [];
}

export interface Arm {
  /** Index in the site's heads; null where the site only has phases. */
  readonly head: number | null;
  readonly phase: string;
  readonly name: string;
  readonly angle: number;
}

type Junction = Extract<Layout['sites'][number], { kind: 'junction' }>;

/** Where each head's traffic comes from, from the site's up. Without heads in the layout each phase gets one. */
export function armsOf(site: Junction): Arm[] {
  const heads = site.heads?.length ? site.heads : null;
  const usual = [90, 180, 270, 0];
  if (!heads) {
    return site.phases.map(({ id, name }, at) => ({ head: null, phase: id, name, angle: usual[at % 4] ?? 0 }));
  }
  return heads.map((head, index) => {
    const phase = Math.max(
      0,
      site.phases.findIndex(({ id }) => id === head.phase),
    );
    const before = heads.slice(0, index).filter((it) => it.phase === head.phase).length;
    return {
      head: index,
      phase: head.phase,
      name: head.name,
      angle: head.arm ?? ((usual[phase % 4] ?? 0) + before * 180) % 360,
    };
  });
}

function segments(road: PlanRoad): [Point, Point][] {
  return road.points.slice(1).flatMap((to, index) => {
    const from = road.points[index];
    return from ? [[from, to] as [Point, Point]] : [];
  });
}

/** From a point to the middle of a road, mm. */
export function offRoad(road: PlanRoad, to: Point): number {
  return Math.min(...segments(road).map(([a, b]) => length(minus(nearestOn(a, b, to), to))));
}

export interface RoadArm {
  readonly road: PlanRoad;
  /** Away from the site. */
  readonly direction: Point;
}

/** The pieces of road that lead away from a place, both ways where a road runs through it. */
export function roadArms(roads: readonly PlanRoad[], place: Point): RoadArm[] {
  return roads.flatMap((road) =>
    segments(road).flatMap(([a, b]) => {
      const foot = nearestOn(a, b, place);
      if (length(minus(foot, place)) > road.width / 2) return [];
      return [a, b].flatMap((end) => {
        const out = minus(end, foot);
        return length(out) > road.width ? [{ road, direction: unit(out) }] : [];
      });
    }),
  );
}

/** The arm that leads most nearly in a direction; null when none is within 45 degrees. */
export function armTowards(arms: readonly RoadArm[], direction: Point): RoadArm | null {
  const found = arms.reduce<RoadArm | null>(
    (best, arm) => (!best || dot(arm.direction, direction) > dot(best.direction, direction) ? arm : best),
    null,
  );
  return found && dot(found.direction, direction) > Math.SQRT1_2 ? found : null;
}

/** From the middle of a junction to where an approach ends, mm: the other roads must be free. */
export function mouth(arms: readonly RoadArm[], direction: Point): number {
  const side = rightOf(direction);
  const clear = arms.map((arm) => {
    const across = Math.abs(dot(arm.direction, side));
    return across < 0.4 ? 0 : arm.road.width / 2 / across;
  });
  return Math.max(20, ...clear);
}

/** Which way a road runs at a place, degrees, 0 to 180. */
export function runOf(roads: readonly PlanRoad[], place: Point): number | null {
  const arm = roadArms(roads, place)[0];
  return arm ? angleOf(arm.direction) % 180 : null;
}
