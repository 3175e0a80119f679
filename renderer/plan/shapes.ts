/** Outlines of symbols, in radii of a lamp. One place, for drawing and for keeping labels clear of them. */
import type { HeadMark } from './marks.ts';
import { type Point, plus, rightOf, towards } from './vectors.ts';

/** From the middle of one lamp to the next. */
export const PITCH = 2.35;
/** Half of a head's backboard, across. */
export const BOARD = 1.32;
/** Length of the post behind a head. */
export const STEM = 1.6;
/** Length of a beacon's banded post up to its globe. */
export const POLE = 2.2;
/** Lamps side by side in a group. */
export const GROUP_COLUMNS = 6;

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Middle of a lamp before the symbol's turn: y runs away from the junction or the road. */
export function lampAt(mark: HeadMark, index: number): Point {
  if (mark.is === 'beacon') return { x: 0, y: POLE + 0.9 };
  if (mark.is === 'head') return { x: 0, y: BOARD + index * PITCH };
  const columns = Math.min(GROUP_COLUMNS, mark.lamps.length);
  const rows = Math.ceil(mark.lamps.length / columns);
  return {
    x: ((index % columns) - (columns - 1) / 2) * PITCH,
    y: (Math.floor(index / columns) - (rows - 1) / 2) * PITCH,
  };
}

/** Length of a head's backboard. */
export function boardLength(lamps: number): number {
  return 2 * BOARD + (lamps - 1) * PITCH;
}

/** What a symbol covers on the plan, mm. */
export function boxOf(mark: HeadMark, r: number): Box {
  if (mark.is === 'group') {
    const columns = Math.min(GROUP_COLUMNS, mark.lamps.length);
    const rows = Math.ceil(mark.lamps.length / columns);
    const half = { x: (columns * PITCH * r) / 2, y: (rows * PITCH * r) / 2 };
    return around([plus(mark.at, half, -1), plus(mark.at, half)]);
  }
  const out = towards(mark.turn);
  const side = rightOf(out);
  const far = (mark.is === 'head' ? boardLength(mark.lamps.length) + STEM : POLE + 2) * r;
  const ends = [mark.at, plus(mark.at, out, far)];
  return around(ends.flatMap((end) => [plus(end, side, BOARD * r), plus(end, side, -BOARD * r)]));
}

export function around(points: readonly Point[]): Box {
  return {
    left: Math.min(...points.map(({ x }) => x)),
    top: Math.min(...points.map(({ y }) => y)),
    right: Math.max(...points.map(({ x }) => x)),
    bottom: Math.max(...points.map(({ y }) => y)),
  };
}

/** Area that two boxes share, mm². */
export function overlap(a: Box, b: Box): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}
