/** Where a thing that is dragged comes to stand: on roads, on sites, in line, on the grid. */
import {
  along,
  between,
  meeting,
  offPiece,
  type Piece,
  type Point,
  piecesOf,
  runOf,
  shareOf,
  withinTurn,
} from '../new-site/geometry.ts';
import type { Layout } from '../schema.ts';
import { nearestPiece, turnBetween } from './carry.ts';
import { isAcross, isMeeting } from './kinds.ts';

export interface SnapRules {
  /** How far off a thing may be to be drawn to it, mm. */
  readonly reach: number;
  /** From one line of the grid to the next, mm. */
  readonly grid: number;
}

export interface Snapped extends Point {
  /** Only where the thing turns with what it snaps to. */
  readonly turn?: number;
  /** What it snapped to, in words; null where it stands free. */
  readonly to: string | null;
}

/** A site that is dragged to a place, turned as it is. */
export function snapSite(layout: Layout, siteId: string, at: Point & { turn: number }, rules: SnapRules): Snapped {
  const site = layout.sites.find(({ id }) => id === siteId);
  const pieces = piecesOf(layout);
  if (site && isMeeting(site)) {
    const cross = nearest(meetings(pieces), at, rules.reach * 2);
    if (cross) return { ...whole(cross), to: 'where roads meet' };
  }
  const fallen = fallOnRoad(layout, siteId, at, rules.reach);
  if (fallen) return fallen;
  const piece = site && isMeeting(site) ? nearestPiece(pieces, at) : null;
  if (piece && offPiece(piece, at) <= rules.reach) {
    return { ...whole(along(piece, shareOf(piece, at))), to: middleOf(layout, piece) };
  }
  return onGrid(at, rules);
}

/** A crossing that is over a road, or not further than `reach` from its middle, comes to lie across it; others: null. */
export function fallOnRoad(layout: Layout, siteId: string, at: Point & { turn: number }, reach = 0): Snapped | null {
  const site = layout.sites.find(({ id }) => id === siteId);
  const piece = site && isAcross(site) ? nearestPiece(piecesOf(layout), at) : null;
  if (!piece || offPiece(piece, at) > Math.max(reach, piece.width / 2)) return null;
  const turn = withinTurn(at.turn + turnBetween(withinTurn(at.turn) % 180, runOf(piece)));
  return { ...whole(along(piece, shareOf(piece, at))), turn, to: middleOf(layout, piece) };
}

/** A point of a road; `beside` are the points before and after it, `own` is its road, which it does not snap to. */
export function snapPoint(
  layout: Layout,
  at: Point,
  rules: SnapRules & { readonly beside?: readonly Point[]; readonly own?: string },
): Snapped {
  const { reach, beside = [], own } = rules;
  const site = nearestOf(
    layout.sites.flatMap(({ place, name }) => (place ? [{ at: place, to: name }] : [])),
    at,
    reach * 1.5,
  );
  if (site) return { ...whole(site.at), to: site.to };
  const others = (layout.roads ?? []).flatMap(({ id, name, points }) =>
    id === own ? [] : points.map(([x, y]) => ({ at: { x, y }, to: `a point of ${name}` })),
  );
  const point = nearestOf(others, at, reach);
  if (point) return { ...whole(point.at), to: point.to };
  const pieces = piecesOf(layout).filter(({ road }) => layout.roads?.[road]?.id !== own);
  const piece = nearestPiece(pieces, at);
  if (piece && offPiece(piece, at) <= reach) {
    // Square to a road at the other end, where that is near.
    const straight = beside.map((end) => footOn(piece, end)).find((foot) => foot && between(foot, at) <= reach);
    const to = middleOf(layout, piece);
    return { ...whole(straight ?? along(piece, shareOf(piece, at))), to };
  }
  return inLine(at, beside, pieces, rules) ?? onGrid(at, rules);
}

/** Turned by hand: right angles, the road that it stands on, then steps of 15 degrees. */
export function snapTurn(
  layout: Layout,
  place: Point,
  turn: number,
): { readonly turn: number; readonly to: string | null } {
  const piece = nearestPiece(piecesOf(layout), place);
  if (piece && offPiece(piece, place) <= piece.width / 2) {
    const run = runOf(piece);
    const way = [run, run + 90, run + 180, run + 270].find((it) => apart(it, turn) <= 6);
    if (way !== undefined) return { turn: withinTurn(way), to: `along or across ${layout.roads?.[piece.road]?.name}` };
  }
  const right = Math.round(turn / 90) * 90;
  if (apart(right, turn) <= 6) return { turn: withinTurn(right), to: 'right angle' };
  return { turn: withinTurn(Math.round(turn / 15) * 15), to: '15° steps' };
}

/** Beside, above, or square to a road on which its neighbour stands. */
function inLine(at: Point, beside: readonly Point[], pieces: readonly Piece[], rules: SnapRules): Snapped | null {
  for (const end of beside) {
    for (const piece of pieces.filter((it) => offPiece(it, end) <= 2)) {
      const out = { x: piece.to.y - piece.from.y, y: piece.from.x - piece.to.x };
      const size = Math.hypot(out.x, out.y) || 1;
      const way = ((at.x - end.x) * out.x + (at.y - end.y) * out.y) / size;
      const foot = { x: end.x + (out.x / size) * way, y: end.y + (out.y / size) * way };
      if (Math.abs(way) > rules.reach && between(foot, at) <= rules.reach) {
        return { ...whole(foot), to: 'right angle' };
      }
    }
  }
  const x = beside.find((end) => Math.abs(end.x - at.x) <= rules.reach)?.x;
  const y = beside.find((end) => Math.abs(end.y - at.y) <= rules.reach)?.y;
  if (x === undefined && y === undefined) return null;
  const grid = onGrid(at, rules);
  return { ...whole({ x: x ?? grid.x, y: y ?? grid.y }), to: 'right angle' };
}

function onGrid({ x, y }: Point, { grid }: SnapRules): Snapped {
  return { ...whole({ x: Math.round(x / grid) * grid, y: Math.round(y / grid) * grid }), to: `grid of ${grid} mm` };
}

function middleOf(layout: Layout, { road }: Piece): string {
  return `middle of ${layout.roads?.[road]?.name}`;
}

/** Where the line from a point falls square onto a piece; null beyond its ends. */
function footOn(piece: Piece, from: Point): Point | null {
  const share = shareOf(piece, from);
  return share > 0 && share < 1 ? along(piece, share) : null;
}

function meetings(pieces: readonly Piece[]): Point[] {
  return pieces.flatMap((piece, index) =>
    pieces.slice(index + 1).flatMap((other) => {
      const at = other.road === piece.road ? null : meeting(piece, other);
      return at ? [at] : [];
    }),
  );
}

function nearest(points: readonly Point[], at: Point, reach: number): Point | null {
  return (
    nearestOf(
      points.map((point) => ({ at: point, to: '' })),
      at,
      reach,
    )?.at ?? null
  );
}

interface Goal {
  readonly at: Point;
  readonly to: string;
}

function nearestOf(goals: readonly Goal[], at: Point, reach: number): Goal | null {
  const best = goals.reduce<Goal | null>(
    (found, goal) => (found === null || between(goal.at, at) < between(found.at, at) ? goal : found),
    null,
  );
  return best && between(best.at, at) <= reach ? best : null;
}

/** Between two directions, 0 to 180. */
function apart(a: number, b: number): number {
  const turn = withinTurn(a - b);
  return Math.min(turn, 360 - turn);
}

function whole({ x, y }: Point): Point {
  // The sum turns -0 into 0.
  return { x: Math.round(x) + 0, y: Math.round(y) + 0 };
}
