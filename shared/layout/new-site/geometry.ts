/** Points and roads on the baseboard, mm. Angles: degrees clockwise from up. */
import type { Layout } from '../schema.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A straight piece of a road. */
export interface Piece {
  /** Number of its road. */
  readonly road: number;
  readonly from: Point;
  readonly to: Point;
  readonly width: number;
}

export function piecesOf(layout: Layout): Piece[] {
  return (layout.roads ?? []).flatMap(({ points, width }, road) =>
    points.slice(1).flatMap(([x, y], index) => {
      const before = points[index];
      return before ? [{ road, from: { x: before[0], y: before[1] }, to: { x, y }, width }] : [];
    }),
  );
}

export function between(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

export function along({ from, to }: Piece, share: number): Point {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

/** How far along a piece the nearest point to a place is, 0 to 1. */
export function shareOf({ from, to }: Piece, at: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const size = dx * dx + dy * dy;
  const share = size === 0 ? 0 : ((at.x - from.x) * dx + (at.y - from.y) * dy) / size;
  return Math.min(1, Math.max(0, share));
}

/** From a point to the middle of a piece of road. */
export function offPiece(piece: Piece, at: Point): number {
  return between(along(piece, shareOf(piece, at)), at);
}

/** The same direction from 0 up to 360. */
export function withinTurn(angle: number): number {
  return ((angle % 360) + 360) % 360;
}

/** Which way a piece runs, 0 up to 180. */
export function runOf({ from, to }: Piece): number {
  const angle = (Math.atan2(to.x - from.x, from.y - to.y) * 180) / Math.PI;
  return Math.round(angle + 360) % 180;
}

/** Where the middles of two pieces meet; an end that touches the other road counts. Null: nowhere. */
export function meeting(a: Piece, b: Piece): Point | null {
  const [ax, ay] = [a.to.x - a.from.x, a.to.y - a.from.y];
  const [bx, by] = [b.to.x - b.from.x, b.to.y - b.from.y];
  const turn = ax * by - ay * bx;
  if (Math.abs(turn) < 1e-6) return null;
  const [dx, dy] = [b.from.x - a.from.x, b.from.y - a.from.y];
  const [onA, onB] = [(dx * by - dy * bx) / turn, (dx * ay - dy * ax) / turn];
  const near = (share: number, piece: Piece, other: Piece): boolean => {
    const slack = other.width / 2 / Math.max(1, between(piece.from, piece.to));
    return share >= -slack && share <= 1 + slack;
  };
  return near(onA, a, b) && near(onB, b, a) ? along(a, Math.min(1, Math.max(0, onA))) : null;
}

/** A road that leads away from a place. */
export interface Arm {
  /** Whole degrees from up. */
  readonly angle: number;
  /** Number of the road. */
  readonly road: number;
}

/** In the order of their angles. */
export function armsAt(pieces: readonly Piece[], place: Point): Arm[] {
  const arms = pieces
    .filter((piece) => offPiece(piece, place) <= piece.width / 2)
    .flatMap((piece) =>
      [piece.from, piece.to].flatMap((end): Arm[] => {
        if (between(end, place) <= piece.width) return [];
        const angle = Math.round((Math.atan2(end.x - place.x, place.y - end.y) * 180) / Math.PI + 360) % 360;
        return [{ angle, road: piece.road }];
      }),
    )
    .sort((a, b) => a.angle - b.angle);
  return arms.filter(({ angle }, index) => index === 0 || angle - (arms[index - 1]?.angle ?? 0) > 20);
}
