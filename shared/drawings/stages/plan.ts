/** A small plan of a junction with arrows for what may move. */
import { element, group, hint, round, through, words } from '../svg.ts';
import type { Move, Movements, Walk } from './moves.ts';
import { apart, crossing, type Point, plus, rightOf, towards } from './vectors.ts';

/** Size of a plan, px. */
export const PLAN = 208;
const REACH = 92;
/** Half of a road's width, and how far from the middle its stop lines are. */
const HALF = 27;
const STOP = 40;
/** Crossings lie outside the stop lines. */
const CROSSING = 52;

export const PLAN_RULES = `
.aw-verge{fill:var(--aw-verge)}
.aw-road{stroke:var(--aw-asphalt);stroke-width:${2 * HALF};fill:none;stroke-linejoin:round}
.aw-stop-line{stroke:var(--aw-paint);stroke-width:3}
.aw-arrow{stroke:var(--aw-ink);stroke-width:4;fill:none;stroke-linejoin:round;stroke-linecap:round}
.aw-arrow.aw-turn{stroke-width:2.5}
.aw-arrow.aw-gives-way{stroke-dasharray:5 6}
.aw-walk{stroke:var(--aw-ink);stroke-width:6;stroke-dasharray:0.1 9;stroke-linecap:round;fill:none}
.aw-walk-ends{stroke:var(--aw-ink);stroke-width:2.5;fill:none;stroke-linejoin:round;stroke-linecap:round}
.aw-held{stroke:var(--aw-ink-soft);stroke-width:2;stroke-dasharray:1 6;stroke-linecap:round;fill:none}
.aw-badge circle{fill:var(--aw-ground);stroke:var(--aw-line);stroke-width:1.5}
.aw-badge.aw-green circle{fill:var(--aw-ink);stroke:var(--aw-ink)}
.aw-drawing .aw-badge.aw-green text{fill:var(--aw-ground)}
`;

export interface PlanLook {
  readonly drives: 'left' | 'right';
  /** Ids of the phases that have right of way. */
  readonly green: readonly string[];
  /** Names of phases for pointers that rest on them. */
  nameOf(phase: string): string;
}

/** Drawn around (0, 0). */
export function drawPlan(movements: Movements, look: PlanLook): string {
  const { arms } = movements;
  const box = element('rect', { class: 'aw-verge', x: -PLAN / 2, y: -PLAN / 2, width: PLAN, height: PLAN, rx: 8 });
  const roads = arms
    .map((arm) => through(points({ x: 0, y: 0 }, plus({ x: 0, y: 0 }, towards(arm), REACH + 8))))
    .join(' ');
  const middle = element('circle', { class: 'aw-key aw-middle', r: 0 });
  return (
    box +
    element('path', { class: 'aw-road', d: roads === '' ? 'M0 0' : roads }) +
    (arms.length > 0 ? '' : middle) +
    arms.map((arm) => stopLine(arm, look.drives)).join('') +
    movements.moves
      .filter(({ phase }) => look.green.includes(phase))
      .map((move) => arrow(move, movements, look))
      .join('') +
    movements.walks.map((walk) => drawWalk(walk, movements, look)).join('') +
    badges(movements, look)
  );
}

const points = (...list: Point[]): [number, number][] => list.map(({ x, y }) => [x, y]);

/** The middle of the lane in which traffic comes in from an arm, as a step to the side. */
function lane(arm: number, drives: 'left' | 'right', inwards: boolean): Point {
  const out = towards(arm);
  const side = rightOf(out);
  // Who comes in along an arm and keeps left is at the right of who looks out along it.
  const sign = (drives === 'left') === inwards ? 1 : -1;
  return { x: (side.x * sign * HALF) / 2, y: (side.y * sign * HALF) / 2 };
}

function stopLine(arm: number, drives: 'left' | 'right'): string {
  const out = towards(arm);
  const side = lane(arm, drives, true);
  const at = plus({ x: 0, y: 0 }, out, STOP);
  const far = plus(at, side, 2);
  return element('line', { class: 'aw-stop-line', x1: at.x, y1: at.y, x2: far.x, y2: far.y });
}

/** From behind the stop line to just beyond the junction. */
function arrow(move: Move, movements: Movements, look: PlanLook): string {
  const [into, out] = [towards(move.from), towards(move.to)];
  const start = plus(lane(move.from, look.drives, true), into, move.is === 'ahead' ? 66 : 44);
  const before = plus(lane(move.from, look.drives, true), into, HALF + 6);
  const after = plus(lane(move.to, look.drives, false), out, HALF + 4);
  const end = plus(lane(move.to, look.drives, false), out, move.is === 'ahead' ? 58 : 46);
  const corner = crossing(before, into, after, out);
  const [s, b, a, e] = [start, before, after, end].map(({ x, y }) => `${round(x)} ${round(y)}`);
  const bend = corner === null ? `L${a}` : `Q${round(corner.x)} ${round(corner.y)} ${a}`;
  const givesWay = isOpposed(move, movements, look);
  const classes = ['aw-arrow', move.is === 'ahead' ? '' : 'aw-turn', givesWay ? 'aw-gives-way' : ''];
  return group(
    { class: 'aw-move', 'data-phase': move.phase, 'data-way': move.is, 'data-from': move.from, 'data-to': move.to },
    hint(
      `${look.nameOf(move.phase)}: ${move.is === 'ahead' ? 'ahead' : `turning ${move.is}`}${givesWay ? ', gives way' : ''}`,
    ),
    element('path', { class: classes.filter((it) => it !== '').join(' '), d: `M${s} L${b} ${bend} L${e}` }),
    element('path', { class: `aw-arrow ${move.is === 'ahead' ? '' : 'aw-turn'}`.trim(), d: tip(end, out) }),
  );
}

function tip(end: Point, direction: Point): string {
  const side = rightOf(direction);
  const back = plus(end, direction, -8);
  return through(points(plus(back, side, 6), end, plus(back, side, -6)));
}

/** A turn across traffic that comes straight on towards it with right of way, too. */
function isOpposed(move: Move, movements: Movements, look: PlanLook): boolean {
  if (move.is !== (look.drives === 'left' ? 'right' : 'left')) return false;
  return movements.moves.some(
    (other) => other.is === 'ahead' && look.green.includes(other.phase) && apart(other.from, move.from + 180) <= 40,
  );
}

/** A dotted bar from kerb to kerb, with tips where people walk. */
function drawWalk(walk: Walk, movements: Movements, look: PlanLook): string {
  const green = look.green.includes(walk.phase);
  const arms = walk.arm === null ? movements.arms : [walk.arm];
  const bars = arms.map((arm) => {
    const out = towards(arm);
    const side = rightOf(out);
    const middle = plus({ x: 0, y: 0 }, out, CROSSING);
    const ends = [plus(middle, side, HALF + 10), plus(middle, side, -HALF - 10)] as const;
    const line = through(points(plus(middle, side, HALF + 1), plus(middle, side, -HALF - 1)));
    if (!green) return element('path', { class: 'aw-held', d: line });
    return (
      element('path', { class: 'aw-walk', d: line }) +
      element('path', {
        class: 'aw-walk-ends',
        d: `${tip(ends[0], side)} ${tip(ends[1], plus({ x: 0, y: 0 }, side, -1))}`,
      })
    );
  });
  return group(
    { class: 'aw-crossing', 'data-phase': walk.phase, 'data-arms': arms.join(' '), 'data-green': green ? 'yes' : 'no' },
    hint(`${look.nameOf(walk.phase)}: ${green ? 'may cross' : 'waits'}`),
    ...bars,
  );
}

/** Letters of the phases where their traffic waits, those with right of way filled. */
function badges(movements: Movements, look: PlanLook): string {
  const entries = new Map<string, { readonly at: Point; readonly phase: string }>();
  const counts = new Map<number, string[]>();
  for (const { phase, from } of movements.moves) {
    const here = counts.get(from) ?? [];
    if (here.includes(phase)) continue;
    counts.set(from, [...here, phase]);
    const inward = lane(from, look.drives, true);
    // Several phases of one arm stand side by side, from the lane towards the verge.
    const at = plus(
      plus(plus({ x: 0, y: 0 }, towards(from), REACH - 8), inward),
      inward,
      (here.length * 24) / (HALF / 2),
    );
    entries.set(`${phase} ${from}`, { at, phase });
  }
  for (const { phase, arm } of movements.walks) {
    if (arm === null) {
      entries.set(phase, { at: { x: 0, y: 0 }, phase });
      continue;
    }
    const side = lane(arm, look.drives, false);
    entries.set(`${phase} ${arm}`, {
      at: plus(plus({ x: 0, y: 0 }, towards(arm), CROSSING), side, (HALF + 26) / (HALF / 2)),
      phase,
    });
  }
  return [...entries.values()]
    .map(({ at, phase }) => {
      const green = look.green.includes(phase);
      return group(
        { class: green ? 'aw-badge aw-green' : 'aw-badge', 'data-phase': phase },
        hint(look.nameOf(phase)),
        element('circle', { cx: at.x, cy: at.y, r: phase.length > 1 ? 13 : 11 }),
        words(phase.slice(0, 2), { x: at.x, y: at.y, anchor: 'middle', class: 'aw-small aw-strong' }),
      );
    })
    .join('');
}
