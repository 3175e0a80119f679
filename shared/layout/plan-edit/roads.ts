/** Roads as a person draws them: each edit gives a layout in which the crossings have gone along. */
import type { Point } from '../new-site/geometry.ts';
import type { Road } from '../places.ts';
import { Name } from '../scalars.ts';
import type { Layout } from '../schema.ts';
import { type Edited, refused } from '../wiring/edit.ts';
import { carry } from './carry.ts';
import { settled } from './loose.ts';

/** From kerb to kerb where no road says otherwise, mm: 7.3 m of a street at 1:76. */
export const USUAL_WIDTH = 96;
const NARROW = 10;
const WIDE = 1000;
/** Points of a road that are nearer to each other are one, mm. */
const LEAST = 5;

/** The next road gets the width of the last one, and a name to be replaced. */
export function addRoad(layout: Layout, points: readonly Point[]): Edited {
  const kept = apart(points);
  if (kept.length < 2) {
    return refused('short-road', 'roads', {
      what: 'The road has no length.',
      why: 'A road has at least two points that are apart.',
      cure: 'Set a second point further away.',
    });
  }
  const before = settled(layout);
  const roads = before.roads ?? [];
  const number = nextNumber(roads);
  const road: Road = {
    id: `road-${number}`,
    name: `Road ${number}`,
    width: roads.at(-1)?.width ?? USUAL_WIDTH,
    points: kept.map(whole),
  };
  return { layout: { ...before, roads: [...roads, road] }, said: `Drew ${road.name}.` };
}

/** From one site straight to the other. */
export function joinSites(layout: Layout, from: string, to: string): Edited {
  const before = settled(layout);
  const ends = [from, to].map((id) => before.sites.find((site) => site.id === id));
  const [a, b] = ends.map((site) => site?.place);
  if (!a || !b || from === to) {
    return refused('no-two-sites', 'sites', {
      what: 'There are no two sites to join.',
      why: 'A road leads from one site to another one.',
      cure: 'Choose two different sites.',
    });
  }
  const drawn = addRoad(before, [a, b]);
  if (!('layout' in drawn)) return drawn;
  return { ...drawn, said: `Joined ${ends[0]?.name} and ${ends[1]?.name} with a road.` };
}

export function nameRoad(layout: Layout, id: string, name: string): Edited {
  const read = Name.safeParse(name);
  if (!read.success) {
    return refused('bad-name', 'roads', {
      what: name.trim() === '' ? 'The road would have no name.' : 'The name is too long.',
      why: 'It stands on the plan and in the lists.',
      cure: 'Write a name of at most 60 letters.',
    });
  }
  return change(layout, id, (road) => ({
    road: { ...road, name: read.data },
    said: `Named ${road.name} ${read.data}.`,
  }));
}

/** mm from kerb to kerb. */
export function widenRoad(layout: Layout, id: string, width: number): Edited {
  if (!(width >= NARROW && width <= WIDE)) {
    return refused('bad-width', 'roads', {
      what: `A road of ${width} mm cannot be drawn.`,
      why: `It is from ${NARROW} to ${WIDE} mm from kerb to kerb.`,
      cure: 'Write its width in millimetres, such as 96.',
    });
  }
  return change(layout, id, (road) => ({
    road: { ...road, width },
    said: `Made ${road.name} ${width} mm wide.`,
  }));
}

export function movePoint(layout: Layout, id: string, index: number, to: Point): Edited {
  return change(layout, id, (road) => ({
    road: { ...road, points: road.points.map((point, at) => (at === index ? whole(to) : point)) },
    said: `Moved a point of ${road.name}.`,
  }));
}

/** In the piece after point `index`; without a place in the middle of it. */
export function addPoint(layout: Layout, id: string, index: number, at?: Point): Edited {
  return change(layout, id, (road) => {
    const [from, to] = [road.points[index], road.points[index + 1]];
    if (!from || !to) return { road, said: '' };
    const point = at ?? { x: (from[0] + to[0]) / 2, y: (from[1] + to[1]) / 2 };
    const points = [...road.points.slice(0, index + 1), whole(point), ...road.points.slice(index + 1)];
    return { road: { ...road, points }, said: `Gave ${road.name} another point.` };
  });
}

export function takePoint(layout: Layout, id: string, index: number): Edited {
  const road = layout.roads?.find((it) => it.id === id);
  if (road && road.points.length <= 2) {
    return refused('short-road', 'roads', {
      what: `${road.name} has only its two ends left.`,
      why: 'A road without both of them leads nowhere.',
      cure: 'Take the whole road away, or move the point.',
    });
  }
  return change(layout, id, (it) => ({
    road: { ...it, points: it.points.filter((_, at) => at !== index) },
    said: `Took a point out of ${it.name}.`,
  }));
}

export function takeRoadAway(layout: Layout, id: string): Edited {
  const road = layout.roads?.find((it) => it.id === id);
  if (!road) return noSuchRoad();
  const roads = layout.roads?.filter((it) => it !== road) ?? [];
  const { roads: _, ...without } = layout;
  return { layout: roads.length > 0 ? { ...layout, roads } : without, said: `Took ${road.name} away.` };
}

function change(layout: Layout, id: string, does: (road: Road) => { road: Road; said: string }): Edited {
  const road = layout.roads?.find((it) => it.id === id);
  if (!road) return noSuchRoad();
  const { road: next, said } = does(road);
  const after = { ...layout, roads: layout.roads?.map((it) => (it === road ? next : it)) };
  return { layout: carry(layout, after), said };
}

function noSuchRoad(): Edited {
  return refused('no-such-road', 'roads', {
    what: 'This road is not in the layout.',
    why: 'The layout has changed since it was chosen.',
    cure: 'Choose the road again.',
  });
}

function nextNumber(roads: readonly Road[]): number {
  for (let number = roads.length + 1; ; number++) {
    const isTaken = roads.some(({ id, name }) => id === `road-${number}` || name === `Road ${number}`);
    if (!isTaken) return number;
  }
}

/** Without points that lie on the one before. */
function apart(points: readonly Point[]): Point[] {
  return points.filter(({ x, y }, index) => {
    const before = points[index - 1];
    return !before || Math.hypot(x - before.x, y - before.y) >= LEAST;
  });
}

function whole({ x, y }: Point): [number, number] {
  return [Math.round(x), Math.round(y)];
}
