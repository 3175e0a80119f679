/** Which way the traffic of each phase goes, as far as the heads tell. */
import type { Junction } from '../../layout/sites.ts';
import { apart, turnFrom } from './vectors.ts';

export interface Move {
  readonly phase: string;
  /** Arms in degrees: where it comes from and where it goes. */
  readonly from: number;
  readonly to: number;
  readonly is: 'ahead' | 'left' | 'right';
}

export interface Walk {
  readonly phase: string;
  /** The arm that is crossed, degrees; null for the middle of the junction. */
  readonly arm: number | null;
}

export interface Movements {
  /** Arms of the road, degrees, ascending. */
  readonly arms: readonly number[];
  readonly moves: readonly Move[];
  readonly walks: readonly Walk[];
  /** Ids of phases of which no head says where it stands. */
  readonly unknown: readonly string[];
}

/** Two heads whose angles differ by less stand on one arm. */
const SAME_ARM = 20;
/** Straight on may bend so much. */
const AHEAD = 40;

/** `turn`: degrees by which the site is turned on the plan; `drives`: side of the road. */
export function movementsOf(site: Junction, turn: number, drives: 'left' | 'right' = 'left'): Movements {
  const heads = (site.heads ?? []).flatMap((head) =>
    head.arm === undefined ? [] : [{ ...head, arm: (head.arm + turn) % 360 }],
  );
  const walks = (phase: string): boolean => {
    const found = site.phases.find((it) => it.id === phase);
    return found?.kind === 'pedestrian' || heads.some((head) => head.phase === phase && head.kind === 'pedestrian');
  };
  const vehicles = heads.filter((head) => !walks(head.phase) && head.kind !== 'pedestrian');
  const arms: number[] = [];
  for (const { arm } of vehicles) if (!arms.some((known) => apart(known, arm) < SAME_ARM)) arms.push(arm);
  arms.sort((a, b) => a - b);
  const nearest = (angle: number): number | null => arms.find((arm) => apart(arm, angle) < SAME_ARM) ?? null;
  const moves = vehicles.flatMap((head): Move[] => {
    const from = nearest(head.arm) ?? head.arm;
    const ways = arms.filter((arm) => arm !== from).map((to) => ({ phase: head.phase, from, to, is: wayOf(from, to) }));
    // Nobody knows where the only arm leads: straight on.
    const all = ways.length === 0 ? [{ phase: head.phase, from, to: (from + 180) % 360, is: 'ahead' as const }] : ways;
    return isArrow(site, head.phase) ? arrowOnly(all, drives) : all;
  });
  const crossings = site.phases
    .filter((phase) => walks(phase.id))
    .flatMap((phase): Walk[] => {
      const own = heads.filter((head) => head.phase === phase.id);
      const crossed = [...new Set(own.map((head) => nearest(head.arm)))];
      return crossed.length === 0 ? [{ phase: phase.id, arm: null }] : crossed.map((arm) => ({ phase: phase.id, arm }));
    });
  const placed = new Set([...moves.map((move) => move.phase), ...crossings.map((walk) => walk.phase)]);
  return {
    arms,
    moves: unique(moves),
    walks: crossings,
    unknown: site.phases.map((phase) => phase.id).filter((phase) => !placed.has(phase)),
  };
}

function wayOf(from: number, to: number): Move['is'] {
  if (apart(from + 180, to) <= AHEAD) return 'ahead';
  // Seen by somebody who comes from `from`, what lies clockwise of it is on the left.
  return turnFrom(from, to) < 180 ? 'left' : 'right';
}

/** A filter arrow: its phase has a green lamp and no other. */
function isArrow(site: Junction, phase: string): boolean {
  const owners = [
    ...site.phases.filter((it) => it.id === phase),
    ...(site.heads ?? []).filter((head) => head.phase === phase),
  ];
  const lamps = owners.flatMap((owner) => Object.keys(owner.lamps ?? {}));
  return lamps.length > 0 && lamps.every((lamp) => lamp === 'green');
}

/**
 * Nothing in the document tells where an arrow points. It turns to the near side where there is such a way, as a
 * filter that runs beside the other road's green must (common practice, no source); else to the far side.
 */
function arrowOnly(moves: readonly Move[], near: 'left' | 'right'): Move[] {
  const turns = moves.filter((move) => move.is !== 'ahead');
  const nearSide = turns.filter((move) => move.is === near);
  if (nearSide.length > 0) return nearSide;
  return turns.length > 0 ? turns : [...moves];
}

function unique(moves: readonly Move[]): Move[] {
  const seen = new Set<string>();
  return moves.filter(({ phase, from, to }) => {
    const key = `${phase} ${from} ${to}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
