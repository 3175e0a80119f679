/** The picture under the plan is laid, moved, scaled, turned, taken away. */
import { between, type Point, withinTurn } from '../new-site/geometry.ts';
import type { Underlay } from '../places.ts';
import type { Layout } from '../schema.ts';
import { type Edited, refused } from '../wiring/edit.ts';
import { settled } from './loose.ts';

/** Percent, where the layout does not say. */
export const USUAL_STRENGTH = 60;
/** Widest and narrowest picture on the plan, mm. */
const NARROW = 20;
const WIDE = 200_000;

export interface Picture {
  /** SHA-256 of its bytes. */
  readonly id: string;
  readonly name: string;
  /** Pixels, as it is seen. */
  readonly width: number;
  readonly height: number;
}

/** As large as the baseboard allows. In the place of another picture it keeps that one's place and size. */
export function layPicture(layout: Layout, { id, name, width, height }: Picture): Edited {
  const before = settled(layout);
  const board = before.baseboard ?? { width: 1000, depth: 1000 };
  const fitting = Math.min(board.width, (board.depth * width) / height);
  const { underlay } = before;
  const next: Underlay = underlay
    ? { ...underlay, picture: id, name }
    : {
        picture: id,
        name,
        x: Math.round(board.width / 2),
        y: Math.round(board.depth / 2),
        width: Math.max(1, Math.round(fitting)),
      };
  const said = underlay
    ? `Laid ${name} under the plan in the place of ${underlay.name}.`
    : `Laid ${name} under the plan.`;
  return { layout: { ...before, underlay: next }, said };
}

export function takePicture(layout: Layout): Edited {
  const { underlay, ...without } = layout;
  if (!underlay) return none();
  return { layout: without, said: `Took ${underlay.name} from under the plan.` };
}

/** `by` in mm. */
export function movePicture(layout: Layout, by: Point): Edited {
  return change(layout, (it) => ({
    next: { ...it, x: Math.round(it.x + by.x), y: Math.round(it.y + by.y) },
    said: `Moved ${it.name} under the plan.`,
  }));
}

/** Degrees clockwise. */
export function turnPicture(layout: Layout, turn: number): Edited {
  const to = tenth(withinTurn(turn));
  return change(layout, (it) => ({ next: { ...it, turn: to }, said: `Turned ${it.name} to ${to}°.` }));
}

/** Percent. */
export function fadePicture(layout: Layout, strength: number): Edited {
  const to = Math.round(Math.min(100, Math.max(0, strength)));
  return change(layout, (it) => ({ next: { ...it, strength: to }, said: `Showed ${it.name} at ${to} %.` }));
}

/**
 * Two points of the picture, where they lie on the plan now, are really so far apart (mm). The first of them stays
 * where it is.
 */
export function scalePicture(layout: Layout, points: readonly [Point, Point], apart: number): Edited {
  const [from, to] = points;
  const now = between(from, to);
  const factor = apart / now;
  const width = (layout.underlay?.width ?? 0) * factor;
  if (!(now >= 1) || !(apart > 0) || !(width >= NARROW && width <= WIDE)) {
    return refused('bad-scale', 'underlay', {
      what: now >= 1 ? `The picture would be ${Math.round(width)} mm wide.` : 'The two points are the same.',
      why: 'From the way between the two points follows how large the picture is.',
      cure: 'Set two points far apart, and write how many millimetres of the layout are between them.',
    });
  }
  return change(layout, (it) => ({
    next: {
      ...it,
      x: tenth(from.x + (it.x - from.x) * factor),
      y: tenth(from.y + (it.y - from.y) * factor),
      width: tenth(width),
    },
    said: `Scaled ${it.name}: the two points are ${apart} mm apart.`,
  }));
}

function change(layout: Layout, does: (underlay: Underlay) => { next: Underlay; said: string }): Edited {
  if (!layout.underlay) return none();
  const { next, said } = does(layout.underlay);
  return { layout: { ...layout, underlay: next }, said };
}

function none(): Edited {
  return refused('no-underlay', 'underlay', {
    what: 'There is no picture under the plan.',
    why: 'It was taken away, or never laid.',
    cure: 'Choose a picture first.',
  });
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
