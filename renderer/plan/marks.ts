/**
 * What stands on the plan: heads, stop lines, crossings, beacons, groups of
 * lamps. Places in mm; symbols are as large as the screen needs them, so `r`,
 * the radius of a lamp, is given in mm by whoever draws.
 */
import type { Layout } from '../../shared/layout/schema.ts';
import { practiceOf } from '../../shared/practice/custom/custom.ts';
import type { CompiledSite } from '../../shared/signals/compile.ts';
import { armsOf, armTowards, type Ground, mouth, type PlanPlace, roadArms } from './ground.ts';
import { lampMark } from './lamp-marks.ts';
import { type RoadSite, roadMarks } from './road-marks.ts';
import { BOARD } from './shapes.ts';
import { angleOf, type Point, plus, rightOf, towards, turned } from './vectors.ts';

export interface MarkedLamp {
  /** Number on the board. */
  readonly index: number;
  readonly colour: string;
}

export interface HeadMark {
  readonly is: 'head' | 'crossing-head' | 'beacon' | 'street-lamps' | 'vehicle' | 'group';
  readonly name: string;
  /** Beside the near end of the stop line, or the foot of a beacon. */
  readonly at: Point;
  /** From there the symbol runs this way. */
  readonly turn: number;
  readonly lamps: readonly MarkedLamp[];
  /** Phase of a junction, end of road works, `vehicle` or `pedestrian` at a crossing: whose times the head shows. */
  readonly stream?: string;
  /** Middles of the lamps in radii, where the kind of symbol alone does not say. */
  readonly spots?: readonly Point[];
}

export interface SiteMarks {
  readonly id: string;
  readonly place: PlanPlace;
  readonly heads: readonly HeadMark[];
  readonly stopLines: readonly (readonly [Point, Point])[];
  /** From the middle of a junction to its stop lines, mm; 0 for other sites. */
  readonly box: number;
  /** Arms of a junction up to their stop lines: no paint there. */
  readonly bare: readonly { readonly from: Point; readonly to: Point; readonly width: number }[];
  readonly crossing: Crossing | null;
  /** Road works on one half of the road. */
  readonly works: Omit<Crossing, 'is'> | null;
}

/** What crosses the road: the bars of a zebra, the studs of a crossing with signals, a railway track. */
export interface Crossing {
  readonly is: 'bars' | 'studs' | 'track';
  readonly place: PlanPlace;
  /** Across the road, mm. */
  readonly across: number;
  /** Along the road, mm. */
  readonly along: number;
}

/** Heads for people on foot are so much further out than the head for drivers round the corner, in radii. */
const CORNER = 2 * BOARD + 0.3;
/** Between stop line and crossing road, mm. */
const SETBACK = 14;
/** Between kerb and post, mm. */
const VERGE = 8;

export function marksOf(
  layout: Layout,
  ground: Ground,
  sites: readonly { readonly index: number; readonly names: CompiledSite }[],
  r: number,
): SiteMarks[] {
  const keepsLeft = practiceOf(layout).practice?.drives.value !== 'right';
  return sites.flatMap(({ index, names }): SiteMarks[] => {
    const site = layout.sites[index];
    const place = ground.places[index];
    if (!site || !place) return [];
    const bare = { id: site.id, place, stopLines: [], box: 0, bare: [], crossing: null, works: null };
    if (site.kind === 'junction') return [{ ...bare, ...junctionMarks(site, names, ground, place, keepsLeft, r) }];
    if (site.kind === 'zebra') return [{ ...bare, ...zebraMarks(site, names, ground, place, r) }];
    if (isRoadSite(site)) return [{ ...bare, ...roadMarks(site, names, ground, place, keepsLeft, r) }];
    return [{ ...bare, heads: [lampMark(site, names, place, r)] }];
  });
}

function isRoadSite(site: Layout['sites'][number]): site is RoadSite {
  return ['pelican', 'crossing', 'level-crossing', 'shuttle'].includes(site.kind);
}

type Junction = Extract<Layout['sites'][number], { kind: 'junction' }>;
type Zebra = Extract<Layout['sites'][number], { kind: 'zebra' }>;

function junctionMarks(
  site: Junction,
  names: CompiledSite,
  ground: Ground,
  place: PlanPlace,
  keepsLeft: boolean,
  r: number,
): Pick<SiteMarks, 'heads' | 'stopLines' | 'box' | 'bare'> {
  const arms = roadArms(ground.roads, place);
  const stopLines: [Point, Point][] = [];
  const heads = armsOf(site).map((arm): HeadMark => {
    const wanted = towards(place.turn + arm.angle);
    const found = armTowards(arms, wanted);
    const out = found?.direction ?? wanted;
    const half = (found?.road.width ?? 90) / 2;
    // Seen by the driver, who looks the other way, the near side is on the left: clockwise of `out`.
    const near = keepsLeft ? rightOf(out) : plus({ x: 0, y: 0 }, rightOf(out), -1);
    const stop = plus(place, out, mouth(arms, out) + SETBACK);
    const isForDrivers = arm.head === null || site.heads?.[arm.head]?.kind !== 'pedestrian';
    if (isForDrivers) stopLines.push([stop, plus(stop, near, half)]);
    const aside = half + VERGE + 1.35 * r;
    return {
      is: 'head',
      name: arm.name,
      // Heads for people on foot stand on the other side of the road.
      at: isForDrivers ? plus(stop, near, aside) : plus(plus(stop, near, -aside), out, CORNER * r),
      turn: angleOf(out),
      lamps: lampsOfHead(site, arm.head, arm.phase, names),
      stream: arm.phase,
    };
  });
  const bare = arms.map(({ direction, road }) => {
    const reach = mouth(arms, direction) + SETBACK;
    return { from: place, to: plus(place, direction, reach), width: road.width, reach };
  });
  const box = Math.max(0, ...bare.map(({ reach }) => reach));
  return { heads, stopLines, box, bare };
}

/** Outputs of a head of its own, and those it shares with its phase, from top to bottom. */
function lampsOfHead(site: Junction, head: number | null, phaseId: string, names: CompiledSite): MarkedLamp[] {
  const own = head === null ? undefined : site.heads?.[head];
  const phase = site.phases.find(({ id }) => id === phaseId);
  return (['red', 'amber', 'green'] as const).flatMap((colour) => {
    const owner = own?.lamps?.[colour] ? own.name : phase?.lamps?.[colour] ? phase.name : null;
    const found = names.lamps.find((lamp) => lamp.label === owner && lamp.colour === colour);
    return found ? [{ index: found.index, colour }] : [];
  });
}

function zebraMarks(
  site: Zebra,
  names: CompiledSite,
  ground: Ground,
  place: PlanPlace,
  r: number,
): Pick<SiteMarks, 'heads' | 'crossing'> {
  const arm = armTowards(roadArms(ground.roads, place), towards(place.turn));
  const across = arm?.road.width ?? 90;
  const heads = site.beacons.map((beacon, index): HeadMark => {
    const side = beacon.side ?? (index % 2 === 0 ? 'left' : 'right');
    const out = turned({ x: side === 'left' ? -1 : 1, y: 0 }, place.turn);
    const lamp = names.lamps[index];
    return {
      is: 'beacon',
      name: beacon.name ?? beacon.id,
      // A third beacon on the same side stands beside the first.
      at: plus(plus(place, out, across / 2 + VERGE + 0.3 * r), towards(place.turn), Math.floor(index / 2) * 3 * r),
      turn: angleOf(out),
      lamps: lamp ? [{ index: lamp.index, colour: lamp.colour }] : [],
    };
  });
  return { heads, crossing: { is: 'bars', place, across, along: 36 } };
}
