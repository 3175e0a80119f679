/** Outlines of symbols, in radii of a lamp. One place, for drawing and for keeping labels clear of them. */
import type { HeadMark } from './marks.ts';
import { type Point, plus, rightOf, towards } from './vectors.ts';

/** From the middle of one lamp to the next. */
export const PITCH = 2.35;
/** Half of a head's backboard, across. */
export const BOARD = 1.32;
/** Between the two reds of a level crossing, and the sides of a vehicle. */
export const LAMPS_APART = 2.7;
/** From the reds of a level crossing down to its amber. */
export const AMBER_BELOW = 2.05;
/** From one street lamp to the next, and from one row of them to the next. */
export const STREET_PITCH = 3;
const STREET_ROW = 4.2;
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
  const spot = mark.spots?.[index];
  if (spot) return spot;
  if (mark.is === 'beacon') return { x: 0, y: POLE + 0.9 };
  if (mark.is === 'head') return { x: 0, y: BOARD + index * PITCH };
  if (mark.is === 'crossing-head') return crossingLampAt(mark, index);
  const isStreet = mark.is === 'street-lamps';
  const columns = Math.min(GROUP_COLUMNS, mark.lamps.length);
  const rows = Math.ceil(mark.lamps.length / columns);
  return {
    x: ((index % columns) - (columns - 1) / 2) * (isStreet ? STREET_PITCH : PITCH),
    y: (Math.floor(index / columns) - (rows - 1) / 2) * (isStreet ? STREET_ROW : PITCH),
  };
}

/** The reds side by side, the amber below them; a head with one red has it in the middle. */
function crossingLampAt({ lamps }: HeadMark, index: number): Point {
  if (lamps[index]?.colour === 'amber') return { x: 0, y: BOARD + AMBER_BELOW };
  const reds = lamps.filter(({ colour }) => colour !== 'amber').length;
  return { x: reds < 2 ? 0 : (index - 0.5) * LAMPS_APART, y: BOARD };
}

/** Length of a level crossing's backboard. */
export function crossingLength(lamps: readonly { readonly colour: string }[]): number {
  return 2 * BOARD + (lamps.some(({ colour }) => colour === 'amber') ? AMBER_BELOW : 0);
}

/** From the place of a symbol that has no direction to its edges, in radii. */
export function halfOf(mark: HeadMark): Point {
  const spots = mark.lamps.map((_, index) => lampAt(mark, index));
  const reach = (values: readonly number[]): number => Math.max(0, ...values.map(Math.abs)) + BOARD;
  const [x, y] = [reach(spots.map((it) => it.x)), reach(spots.map((it) => it.y))];
  if (mark.is === 'vehicle') return { x: x + 0.2, y: Math.max(y + 0.9, 2.6) };
  return mark.is === 'street-lamps' ? { x, y: y + 0.6 } : { x, y };
}

/** Length of a head's backboard. */
export function boardLength(lamps: number): number {
  return 2 * BOARD + (lamps - 1) * PITCH;
}

/** What a symbol covers on the plan, mm. */
export function boxOf(mark: HeadMark, r: number): Box {
  if (mark.is === 'group' || mark.is === 'street-lamps' || mark.is === 'vehicle') {
    const half = halfOf(mark);
    return around([plus(mark.at, half, -r), plus(mark.at, half, r)]);
  }
  const out = towards(mark.turn);
  const side = rightOf(out);
  const ends = [mark.at, plus(mark.at, out, farOf(mark) * r)];
  const half = (mark.is === 'crossing-head' ? LAMPS_APART / 2 + BOARD : BOARD) * r;
  return around(ends.flatMap((end) => [plus(end, side, half), plus(end, side, -half)]));
}

/** From its place to the far end of a symbol that has a direction, in radii. */
function farOf({ is, lamps }: HeadMark): number {
  if (is === 'head') return boardLength(lamps.length) + STEM;
  return is === 'crossing-head' ? crossingLength(lamps) + STEM : POLE + 2;
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
