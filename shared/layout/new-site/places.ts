/** Where a new site can stand: free, and on or beside a road. */
import type { Place } from '../places.ts';
import type { Layout } from '../schema.ts';
import {
  type Arm,
  along,
  armsAt,
  between,
  meeting,
  offPiece,
  type Piece,
  type Point,
  piecesOf,
  runOf,
} from './geometry.ts';

/** A number: where so many arms of roads meet; `road`: across or along one; `beside`: off the roads, near one. */
export type Stands = number | 'road' | 'beside';

export interface FreePlace {
  /** Absent where the layout has neither baseboard nor roads: the plan then stands its sites in rows. */
  readonly place?: Place;
  /** Name of the road there. */
  readonly road?: string;
  /** Where roads lead away from there. */
  readonly arms: readonly Arm[];
}

/** From one place that is looked at to the next, mm. */
const STEP = 20;
/** Most that are tried beside the roads. */
const MOST_SPOTS = 20_000;
/** Nothing stands nearer to the edge of the baseboard, mm. */
const EDGE = 70;
/** More room than this is no better, mm. */
const ENOUGH = 600;
/** Along a road, from the kerb of the next one on, mm. */
const MOUTH = 280;
/** From a kerb to the middle of what stands beside the road, mm. */
const ASIDE = 160;

export function freePlace(layout: Layout, stands: Stands): FreePlace {
  const pieces = piecesOf(layout);
  const bounds = boundsOf(layout, pieces);
  if (bounds === null) return { arms: [] };
  const taken = layout.sites.flatMap((site) => (site.place ? [{ ...site.place, wide: widthOf(site) }] : []));
  const room = (at: Point): number =>
    Math.min(
      ENOUGH,
      ...taken.map((site) => between(site, at) - site.wide),
      ...[at.x, at.y, bounds.width - at.x, bounds.depth - at.y].map((edge) => (edge - EDGE) * 2),
    );
  const spots = spotsOf(stands, pieces, bounds);
  const best = spots.reduce<{ readonly spot: Spot; readonly worth: number } | null>((found, spot) => {
    const worth = room(spot.at) - spot.cost;
    return found !== null && found.worth >= worth ? found : { spot, worth };
  }, null);
  if (best === null) return { arms: [] };
  const { at, piece } = best.spot;
  const arms = armsAt(pieces, at);
  const nearest = piece ?? nearestPiece(pieces, at);
  const road = layout.roads?.[nearest?.road ?? -1]?.name;
  const turn = stands !== 'beside' && piece && arms.length < 3 ? runOf(piece) : 0;
  return {
    place: { x: Math.round(at.x), y: Math.round(at.y), ...(turn !== 0 && { turn }) },
    ...(road !== undefined && { road }),
    arms,
  };
}

/** How much further than a lamp a site reaches, mm: its heads stand on all sides of the road. */
function widthOf(site: Layout['sites'][number]): number {
  switch (site.kind) {
    case 'junction':
      return site.phases.some(({ kind }) => kind === 'pedestrian') ? 240 : 130;
    case 'zebra':
    case 'pelican':
    case 'crossing':
    case 'level-crossing':
    case 'shuttle':
      return 110;
    default:
      return 0;
  }
}

interface Spot {
  readonly at: Point;
  readonly piece: Piece | null;
  /** mm of room that a better spot may lack. */
  readonly cost: number;
}

function spotsOf(stands: Stands, pieces: readonly Piece[], bounds: Bounds): Spot[] {
  if (stands === 'beside' || pieces.length === 0) return besideRoads(pieces, bounds);
  const onRoads = alongRoads(pieces);
  return stands === 'road' ? onRoads : [...meetings(pieces, stands), ...onRoads];
}

/** A meeting of roads is worth some room. */
function meetings(pieces: readonly Piece[], arms: number): Spot[] {
  return pieces.flatMap((piece, index) =>
    pieces.slice(index + 1).flatMap((other) => {
      const at = other.road === piece.road ? null : meeting(piece, other);
      return at && armsAt(pieces, at).length === arms ? [{ at, piece, cost: -120 }] : [];
    }),
  );
}

function alongRoads(pieces: readonly Piece[]): Spot[] {
  return pieces.flatMap((piece) => {
    const length = between(piece.from, piece.to);
    return Array.from({ length: Math.max(1, Math.floor(length / STEP)) }, (_, index): Spot => {
      const at = along(piece, ((index + 0.5) * STEP) / Math.max(STEP, length));
      const others = pieces.filter(({ road }) => road !== piece.road);
      const clear = Math.min(ENOUGH, ...others.map((other) => offPiece(other, at) - other.width / 2));
      return { at, piece, cost: Math.max(0, MOUTH - clear) };
    });
  });
}

/** Off the roads, and the nearer to one the better. */
function besideRoads(pieces: readonly Piece[], { width, depth }: Bounds): Spot[] {
  // On a very large baseboard they are further apart.
  const apart = Math.max(2 * STEP, Math.sqrt((width * depth) / MOST_SPOTS));
  const columns = Math.max(1, Math.floor(width / apart));
  const rows = Math.max(1, Math.floor(depth / apart));
  return Array.from({ length: columns * rows }, (_, index): Spot => {
    const at = { x: ((index % columns) + 0.5) * apart, y: (Math.floor(index / columns) + 0.5) * apart };
    const off = pieces.length === 0 ? 0 : Math.min(...pieces.map((piece) => offPiece(piece, at) - piece.width / 2));
    return { at, piece: null, cost: off < ASIDE ? 6 * (ASIDE - off) : 0.4 * (off - ASIDE) };
  });
}

function nearestPiece(pieces: readonly Piece[], at: Point): Piece | null {
  return pieces.reduce<Piece | null>(
    (best, piece) => (best === null || offPiece(piece, at) < offPiece(best, at) ? piece : best),
    null,
  );
}

interface Bounds {
  readonly width: number;
  readonly depth: number;
}

function boundsOf({ baseboard, sites }: Layout, pieces: readonly Piece[]): Bounds | null {
  if (baseboard !== undefined) return baseboard;
  if (pieces.length === 0) return null;
  const points = [...pieces.flatMap(({ from, to }) => [from, to]), ...sites.flatMap(({ place }) => place ?? [])];
  return { width: Math.max(...points.map(({ x }) => x)), depth: Math.max(...points.map(({ y }) => y)) };
}
