/** Directions on a plan: degrees clockwise from up, y downwards. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export function towards(degrees: number): Point {
  const radians = (degrees * Math.PI) / 180;
  return { x: Math.sin(radians), y: -Math.cos(radians) };
}

/** Right-hand side of somebody who looks along `direction`. */
export const rightOf = (direction: Point): Point => ({ x: -direction.y, y: direction.x });

export const plus = (point: Point, direction: Point, times = 1): Point => ({
  x: point.x + direction.x * times,
  y: point.y + direction.y * times,
});

/** Clockwise from one direction to the other, 0 to 360. */
export const turnFrom = (from: number, to: number): number => (((to - from) % 360) + 360) % 360;

/** Angle between two directions, 0 to 180. */
export function apart(one: number, other: number): number {
  const turn = turnFrom(one, other);
  return Math.min(turn, 360 - turn);
}

/** Where two lines cross, each through a point in a direction; null when they hardly do. */
export function crossing(a: Point, along: Point, b: Point, across: Point): Point | null {
  const det = along.x * across.y - along.y * across.x;
  if (Math.abs(det) < 0.15) return null;
  const t = ((b.x - a.x) * across.y - (b.y - a.y) * across.x) / det;
  return plus(a, along, t);
}
