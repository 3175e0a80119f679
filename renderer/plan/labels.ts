/** Where the names of sites and roads stand, clear of lamps and of each other. */
import { type Ground, offRoad, type PlanRoad } from './ground.ts';
import type { SiteMarks } from './marks.ts';
import { around, type Box, boxOf, overlap } from './shapes.ts';
import { angleOf, length, minus, type Point, plus } from './vectors.ts';

export interface Label {
  /** Left end of the first line's middle, mm. */
  readonly x: number;
  readonly y: number;
  readonly box: Box;
}

/** `size`: width and height in mm of each site's label. */
export function siteLabels(
  marks: readonly SiteMarks[],
  ground: Ground,
  r: number,
  size: (site: SiteMarks) => { readonly width: number; readonly height: number },
): Label[] {
  const symbols = marks.flatMap((site) => [...site.heads.map((head) => boxOf(head, r)), coreOf(site)]);
  const roads = ground.roads.flatMap(roadBoxes);
  const taken: Box[] = [];
  return marks.map((site) => {
    const { width, height } = size(site);
    const core = coreOf(site);
    const own = site.heads.map((head) => boxOf(head, r)).reduce(union, core);
    const gap = 0.6 * r;
    const lefts = [
      core.left - width,
      core.right,
      (core.left + core.right - width) / 2,
      own.left - width - gap,
      own.right + gap,
    ];
    const tops = [
      core.top - height,
      core.bottom,
      own.top - height - gap,
      own.bottom + gap,
      (core.top + core.bottom - height) / 2,
    ];
    const steps = [0, 2.9 * r, 5.8 * r];
    const choices = lefts.flatMap((left) =>
      tops.flatMap((top) =>
        steps.flatMap((step) =>
          [-1, 1].map((sign) =>
            boxAt(
              between(left, 0.2 * r, ground.width - width - 0.2 * r),
              between(top + sign * step, 0, ground.depth - height),
              width,
              height,
            ),
          ),
        ),
      ),
    );
    // Where two places are as good, further up and to the left: names then stand alike.
    const cost = (box: Box): number => {
      const covered = [...symbols, ...taken].reduce((sum, other) => sum + overlap(grown(box, 0.35 * r), other), 0);
      const onRoad = roads.reduce((sum, other) => sum + overlap(grown(box, 0.35 * r), other), 0);
      const inside = overlap(box, { left: 0, top: 0, right: ground.width, bottom: ground.depth });
      const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
      const crowded = taken.reduce((sum, other) => sum + overlap(grown(box, 2.2 * r), other), 0);
      const lean = (middle.x + middle.y - site.place.x - site.place.y) * r * 0.12;
      return (
        crowded +
        lean +
        6 * covered +
        2 * onRoad +
        8 * (width * height - inside) +
        length(minus(middle, site.place)) * r * 0.6
      );
    };
    const best = choices.reduce((a, b) => (cost(b) < cost(a) ? b : a));
    taken.push(best);
    return { x: best.left, y: best.top, box: best };
  });
}

/** `value`, or the nearer end; the first end where there is no room between them. */
function between(value: number, least: number, greatest: number): number {
  return Math.max(least, Math.min(greatest, value));
}

/** The middle of a site without its symbols. */
function coreOf({ place, box, crossing }: SiteMarks): Box {
  const half = Math.max(20, box, crossing ? crossing.across / 2 : 0);
  return around([plus(place, { x: half, y: half }), plus(place, { x: half, y: half }, -1)]);
}

function boxAt(left: number, top: number, width: number, height: number): Box {
  return { left, top, right: left + width, bottom: top + height };
}

function grown(box: Box, by: number): Box {
  return { left: box.left - by, top: box.top - by, right: box.right + by, bottom: box.bottom + by };
}

function union(a: Box, b: Box): Box {
  return around([
    { x: a.left, y: a.top },
    { x: a.right, y: a.bottom },
    { x: b.left, y: b.top },
    { x: b.right, y: b.bottom },
  ]);
}

/** For one straight piece of a road, however thin. */
const MOST_BOXES = 500;

/** A road as small boxes, so that one at an angle covers no more than it does. */
function roadBoxes(road: PlanRoad): Box[] {
  const half = road.width / 2;
  return pieces(road).flatMap(([a, b]) => {
    const count = Math.min(MOST_BOXES, Math.max(1, Math.ceil(length(minus(b, a)) / road.width)));
    return Array.from({ length: count }, (_, at) => {
      const middle = plus(a, minus(b, a), (at + 0.5) / count);
      return boxAt(middle.x - half, middle.y - half, road.width, road.width);
    });
  });
}

function pieces(road: PlanRoad): [Point, Point][] {
  return road.points.slice(1).flatMap((to, index) => {
    const from = road.points[index];
    return from ? [[from, to] as [Point, Point]] : [];
  });
}

export interface RoadLabel {
  readonly at: Point;
  /** Degrees; never upside down. */
  readonly turn: number;
}

/** The longest straight stretch of a road that no site covers; null when the name does not fit. */
export function roadLabel(
  road: PlanRoad,
  marks: readonly SiteMarks[],
  width: number,
  roads: readonly PlanRoad[] = [],
): RoadLabel | null {
  const others = roads.filter(({ id }) => id !== road.id);
  let best: { at: Point; turn: number; free: number } | null = null;
  for (const [a, b] of pieces(road)) {
    const along = minus(b, a);
    const total = length(along);
    const spots = marks
      .map(({ place, box, crossing, works }) => {
        const share = ((place.x - a.x) * along.x + (place.y - a.y) * along.y) / (total * total);
        const aside = length(minus(plus(a, along, share), place));
        const half = Math.max(box, crossing?.along ?? 0, works ? works.along * 0.75 : 0);
        return aside > road.width ? null : { from: share * total - half, to: share * total + half };
      })
      .filter((spot) => spot !== null)
      .concat(crossedBy(others, a, along, total))
      .sort((one, other) => one.from - other.from);
    let start = 0;
    for (const spot of [...spots, { from: total, to: total }]) {
      const free = spot.from - start;
      const middle = plus(a, along, (start + free / 2) / total);
      if (free > (best?.free ?? width * 1.15)) best = { at: middle, turn: (angleOf(along) + 270) % 360, free };
      start = Math.max(start, spot.to);
    }
  }
  if (!best) return null;
  const upsideDown = best.turn > 90 && best.turn <= 270;
  return { at: best.at, turn: upsideDown ? (best.turn + 180) % 360 : best.turn };
}

/** Stretches of a straight piece that other roads cover, mm from its begin. */
function crossedBy(others: readonly PlanRoad[], a: Point, along: Point, total: number): { from: number; to: number }[] {
  const count = Math.ceil(total / 20);
  return Array.from({ length: count }, (_, at) => (at + 0.5) * 20).flatMap((way) => {
    const here = plus(a, along, way / total);
    const isCovered = others.some((other) => offRoad(other, here) < other.width / 2 + 10);
    return isCovered ? [{ from: way - 10, to: way + 10 }] : [];
  });
}
