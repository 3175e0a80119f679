/** Points on the baseboard: mm, x to the right, y down. Angles: degrees clockwise from up. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

export function plus(a: Point, b: Point, times = 1): Point {
  return { x: a.x + b.x * times, y: a.y + b.y * times };
}

export function minus(a: Point, b: Point): Point {
  return plus(a, b, -1);
}

export function dot(a: Point, b: Point): number {
  return a.x * b.x + a.y * b.y;
}

export function length(a: Point): number {
  return Math.hypot(a.x, a.y);
}

export function unit(a: Point): Point {
  const size = length(a);
  return size === 0 ? { x: 0, y: -1 } : { x: a.x / size, y: a.y / size };
}

/** The direction of an angle. */
export function towards(angle: number): Point {
  const turn = (angle * Math.PI) / 180;
  return { x: Math.sin(turn), y: -Math.cos(turn) };
}

/** The angle of a direction, 0 to 360. */
export function angleOf({ x, y }: Point): number {
  return ((Math.atan2(x, -y) * 180) / Math.PI + 360) % 360;
}

/** A quarter turn clockwise as seen on the plan. */
export function rightOf({ x, y }: Point): Point {
  return { x: -y, y: x };
}

/** `point`, given before a turn about the origin. */
export function turned({ x, y }: Point, angle: number): Point {
  const up = towards(angle);
  const right = rightOf(up);
  return { x: right.x * x - up.x * y, y: right.y * x - up.y * y };
}

/** The point of a piece of line that is nearest to `to`. */
export function nearestOn(a: Point, b: Point, to: Point): Point {
  const along = minus(b, a);
  const size = dot(along, along);
  const share = size === 0 ? 0 : Math.min(1, Math.max(0, dot(minus(to, a), along) / size));
  return plus(a, along, share);
}
