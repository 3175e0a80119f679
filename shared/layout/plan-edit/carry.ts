/** What stands on a road goes along when the road is drawn elsewhere. */
import {
  along,
  between,
  offPiece,
  type Piece,
  type Point,
  piecesOf,
  runOf,
  shareOf,
  withinTurn,
} from '../new-site/geometry.ts';
import type { Place } from '../places.ts';
import type { Layout } from '../schema.ts';
import { isAcross } from './kinds.ts';

/** A place on a road: the piece, counted along the road, and the share of it. */
interface Spot {
  readonly road: string;
  readonly piece: number;
  readonly share: number;
  readonly run: number;
}

/** Crossings of `before` that stood on a road stand on it in `after`, turned as it turned. */
export function carry(before: Layout, after: Layout): Layout {
  let isCarried = false;
  const sites = after.sites.map((site) => {
    if (!isAcross(site) || !site.place) return site;
    const spot = spotOf(before, site.place);
    const place = spot && placeAt(before, after, spot, site.place);
    if (!place) return site;
    isCarried = true;
    return { ...site, place };
  });
  return isCarried ? { ...after, sites } : after;
}

/** The piece of road on which a place is, null beside the roads. */
function spotOf(layout: Layout, place: Place): Spot | null {
  const found = nearestPiece(piecesOf(layout), place);
  if (!found || offPiece(found, place) > found.width / 2) return null;
  const own = piecesOf(layout).filter(({ road }) => road === found.road);
  const road = layout.roads?.[found.road]?.id ?? '';
  return { road, piece: indexIn(own, found), share: shareOf(found, place), run: runOf(found) };
}

function placeAt(before: Layout, after: Layout, spot: Spot, place: Place): Place | null {
  const [old, next] = [before, after].map((layout) => layout.roads?.find(({ id }) => id === spot.road));
  if (!old || !next || old.points === next.points) return null;
  const pieces = piecesOf({ ...after, roads: [next] });
  const isSame = old.points.length === next.points.length;
  const piece = isSame ? pieces[spot.piece] : nearestPiece(pieces, place);
  if (!piece) return null;
  const was = piecesOf({ ...before, roads: [old] })[spot.piece];
  if (was && between(was.from, piece.from) === 0 && between(was.to, piece.to) === 0) return null;
  const at = along(piece, isSame ? spot.share : shareOf(piece, place));
  const turn = withinTurn(Math.round((place.turn ?? 0) + turnBetween(spot.run, runOf(piece))));
  return { x: Math.round(at.x), y: Math.round(at.y), ...(turn !== 0 || place.turn !== undefined ? { turn } : {}) };
}

/** The way from one run of a road to another that turns least, degrees. */
export function turnBetween(from: number, to: number): number {
  return ((to - from + 90 + 360) % 180) - 90;
}

export function nearestPiece(pieces: readonly Piece[], at: Point): Piece | null {
  return pieces.reduce<Piece | null>(
    (best, piece) => (best === null || offPiece(piece, at) < offPiece(best, at) ? piece : best),
    null,
  );
}

function indexIn(pieces: readonly Piece[], piece: Piece): number {
  return pieces.findIndex(({ from, to }) => between(from, piece.from) === 0 && between(to, piece.to) === 0);
}
