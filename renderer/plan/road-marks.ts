/** Heads at both ends of a crossing, a level crossing or road works, with what is painted on the road. */
import type { Layout } from '../../shared/layout/schema.ts';
import type { CompiledSite } from '../../shared/signals/compile.ts';
import { armTowards, type Ground, type PlanPlace, roadArms } from './ground.ts';
import type { HeadMark, MarkedLamp, SiteMarks } from './marks.ts';
import { BOARD, LAMPS_APART } from './shapes.ts';
import { angleOf, type Point, plus, rightOf, towards } from './vectors.ts';

type Site = Layout['sites'][number];
type Of<K extends Site['kind']> = Extract<Site, { kind: K }>;
export type RoadSite = Of<'pelican'> | Of<'crossing'> | Of<'level-crossing'> | Of<'shuttle'>;

type RoadMarks = Pick<SiteMarks, 'heads' | 'stopLines' | 'crossing' | 'works'>;

/** Between kerb and post, mm. */
const VERGE = 8;
/** Where no road says how wide it is, mm. */
const WIDTH = 90;
/** Along the road, mm: the crossing itself, the bed of the track, the works; and from there to the stop line. */
const CROSSING = 36;
const TRACK = 44;
const WORKS = 130;
const SETBACK = 16;

/** One who is stopped: where from, degrees from the site's up, and by what. */
interface Approach {
  readonly name: string;
  readonly arm: number;
  readonly lamps: readonly MarkedLamp[];
  readonly is: 'head' | 'crossing-head';
  readonly isOnFoot: boolean;
  readonly stream: string;
}

export function roadMarks(
  site: RoadSite,
  names: CompiledSite,
  ground: Ground,
  place: PlanPlace,
  keepsLeft: boolean,
  r: number,
): RoadMarks {
  const arms = roadArms(ground.roads, place);
  const across = armTowards(arms, towards(place.turn))?.road.width ?? WIDTH;
  const along = { pelican: CROSSING, crossing: CROSSING, 'level-crossing': TRACK, shuttle: WORKS }[site.kind];
  const stopLines: [Point, Point][] = [];
  const heads = approachesOf(site, names).map((approach): HeadMark => {
    const wanted = towards(place.turn + approach.arm);
    const { is, name, lamps, isOnFoot, stream } = approach;
    if (isOnFoot) {
      return { is, name, at: plus(place, wanted, across / 2 + VERGE), turn: angleOf(wanted), lamps, stream };
    }
    const out = armTowards(arms, wanted)?.direction ?? wanted;
    const near = keepsLeft ? rightOf(out) : plus({ x: 0, y: 0 }, rightOf(out), -1);
    const stop = plus(place, out, along / 2 + SETBACK);
    stopLines.push([stop, plus(stop, near, across / 2)]);
    // Clear of the heads for people on foot, which stand beside the crossing itself.
    const clear = site.kind === 'pelican' || site.kind === 'crossing' ? (BOARD + 0.35) * r : 0;
    const post = plus(place, out, Math.max(along / 2 + SETBACK, clear));
    const half = is === 'crossing-head' ? LAMPS_APART / 2 + BOARD : BOARD;
    return { is, name, at: plus(post, near, across / 2 + VERGE + half * r), turn: angleOf(out), lamps, stream };
  });
  if (site.kind === 'shuttle') return { heads, stopLines, crossing: null, works: { place, across, along } };
  const is = site.kind === 'level-crossing' ? 'track' : 'studs';
  return { heads, stopLines, crossing: { is, place, across, along }, works: null };
}

function approachesOf(site: RoadSite, names: CompiledSite): Approach[] {
  switch (site.kind) {
    case 'shuttle':
      return site.ends.map(({ id, name, arm, lamps }, index) => ({
        name,
        arm: arm ?? index * 180,
        lamps: owned(names, name, lamps, VEHICLES),
        is: 'head',
        isOnFoot: false,
        stream: id,
      }));
    case 'level-crossing': {
      const shared = partsOf(names, 'Road', site.lights, LIGHTS);
      return (site.heads?.length ? site.heads : BOTH_ENDS).map(({ name, arm, ...head }, index) => {
        const own = partsOf(names, name, 'lights' in head ? head.lights : undefined, LIGHTS);
        // Drawn left, right, amber: the amber stands below the two.
        const lamps = (['left', 'right', 'amber'] as const).flatMap((part) => own.get(part) ?? shared.get(part) ?? []);
        return { name, arm: arm ?? index * 180, lamps, is: 'crossing-head', isOnFoot: false, stream: 'vehicle' };
      });
    }
    default: {
      const shared = {
        vehicle: partsOf(names, 'Vehicles', site.vehicles, VEHICLES),
        pedestrian: partsOf(names, 'Pedestrians', site.pedestrians, VEHICLES),
      };
      return (site.heads?.length ? site.heads : AT_CROSSING).map(({ name, arm, kind, ...head }, index) => {
        const own = partsOf(names, name, 'lamps' in head ? head.lamps : undefined, VEHICLES);
        const lamps = VEHICLES.flatMap((part) => own.get(part) ?? shared[kind].get(part) ?? []);
        const usual = (kind === 'vehicle' ? 0 : 90) + (index % 2) * 180;
        return { name, arm: arm ?? usual, lamps, is: 'head', isOnFoot: kind === 'pedestrian', stream: kind };
      });
    }
  }
}

const VEHICLES = ['red', 'amber', 'green'] as const;
const LIGHTS = ['amber', 'left', 'right'] as const;
const BOTH_ENDS = [
  { name: 'Traffic from above', arm: 0 },
  { name: 'Traffic from below', arm: 180 },
] as const;
/** Where the layout names no heads: one of each kind on each side. */
const AT_CROSSING = [
  { name: 'Traffic from above', kind: 'vehicle', arm: 0 },
  { name: 'Traffic from below', kind: 'vehicle', arm: 180 },
  { name: 'People on the left', kind: 'pedestrian', arm: 270 },
  { name: 'People on the right', kind: 'pedestrian', arm: 90 },
] as const;

/** Lamps of one owner by part. A compiled site names them by owner, in the order of the parts. */
function partsOf<P extends string>(
  names: CompiledSite,
  owner: string,
  lamps: Partial<Record<P, unknown>> | undefined,
  parts: readonly P[],
): Map<P, MarkedLamp> {
  const there = parts.filter((part) => lamps?.[part] !== undefined);
  const found = names.lamps.filter(({ label }) => label === owner);
  return new Map(
    there.flatMap((part, index): [P, MarkedLamp][] => {
      const lamp = found[index];
      return lamp ? [[part, { index: lamp.index, colour: lamp.colour }]] : [];
    }),
  );
}

function owned<P extends string>(
  names: CompiledSite,
  owner: string,
  lamps: Partial<Record<P, unknown>> | undefined,
  parts: readonly P[],
): MarkedLamp[] {
  return [...partsOf(names, owner, lamps, parts).values()];
}
