/**
 * Random junctions as a file would give them, with people on foot, arrows, skipped and extended stages, delays;
 * and the rules read from the file alone, for judging what the lamps do.
 */
import { chance, type Dice, pick, times } from '../fixtures/dice.ts';
import type { Loose } from '../layout/small.ts';
import { layoutOf } from './junctions.ts';

export interface AnySite {
  readonly layout: Loose;
  readonly phases: readonly {
    readonly id: string;
    readonly minGreen: number;
    readonly onFoot: boolean;
    readonly demand: string | null;
  }[];
  /** ms from the end of one's green to the start of the other's. */
  readonly intergreens: ReadonlyMap<string, number>;
  /** Ids of stages that come in every round, asked for or not. */
  readonly always: readonly string[];
  /** Stage in which the junction stands when nobody has asked for long; null where it goes on or stays anywhere. */
  readonly home: string | null;
  /** Longest time in which every stage comes if somebody asks for it, ms. */
  readonly round: number;
}

const AMBER = 3;
const RED_AMBER = 2;

export function anySite(dice: Dice): AnySite {
  const count = dice.int(2, 5);
  const ids = times(count, (index) => 'ABCDE'.charAt(index));
  const all = ids.map((id) => {
    const onFoot = chance(dice, 25);
    const arrow = !onFoot && chance(dice, 10);
    return {
      id,
      onFoot,
      arrow,
      clearance: onFoot ? dice.int(2, 9) : 0,
      minGreen: dice.int(1, 6),
      demand: chance(dice, 80) ? `${id}-asks` : null,
    };
  });
  const cross = new Set<string>();
  for (const one of ids) for (const other of ids) if (one < other && chance(dice, 60)) cross.add(one + other);
  const conflict = (one: string, other: string) => cross.has(one < other ? one + other : other + one);
  const stages = times(dice.int(2, 5), (index): Loose => {
    const members: string[] = [];
    for (const id of times(dice.int(1, 3), () => pick(dice, ids))) {
      if (!members.includes(id) && !members.some((other) => conflict(id, other))) members.push(id);
    }
    const own = all.filter((phase) => members.includes(phase.id));
    const detectors = own.flatMap((phase) => (phase.onFoot || phase.demand === null ? [] : [phase.demand]));
    const extend = detectors.length > 0 && chance(dice, 40);
    return {
      id: String(index + 1),
      phases: members,
      green: dice.int(6, 15),
      ...(own.some((phase) => phase.demand !== null) && chance(dice, 60) ? { skip: true } : {}),
      ...(extend ? { extend: { maximum: dice.int(15, 30), gap: dice.int(1, 4) } } : {}),
    };
  });
  // Who asks is in a stage.
  const asks = (id: string) => stages.some((stage) => stage.phases.includes(id));
  const phases = all.map((phase) => ({ ...phase, demand: asks(phase.id) ? phase.demand : null }));
  const together = (one: string, other: string) =>
    stages.some((stage) => stage.phases.includes(one) && stage.phases.includes(other));
  const intergreens = new Map<string, number>();
  const matrix: Record<string, Record<string, number>> = {};
  for (const from of phases) {
    for (const to of phases) {
      if (from.id === to.id || !(conflict(from.id, to.id) || !together(from.id, to.id))) continue;
      const seconds = (from.onFoot ? from.clearance : AMBER) + RED_AMBER + pick(dice, [0, 0, 1, 2.5, 6]);
      matrix[from.id] = { ...matrix[from.id], [to.id]: seconds };
      intergreens.set(from.id + to.id, seconds * 1000);
    }
  }
  const delays = times(chance(dice, 30) ? 1 : 0, () => ({
    phase: pick(dice, ids),
    ...(chance(dice, 50) ? { from: pick(dice, stages).id } : {}),
    ...(chance(dice, 50) ? { start: dice.int(1, 4) } : { end: dice.int(1, 4) }),
  }));
  const site = {
    stages,
    intergreens: matrix,
    delays,
    amber: AMBER,
    redWithAmber: RED_AMBER,
    ...(stages.every((stage) => stage.skip) && chance(dice, 50) ? { rest: pick(dice, stages).id } : {}),
  };
  const words = phases.map(({ id, onFoot, arrow, clearance, minGreen, demand }) => [
    id,
    {
      lamps: onFoot ? 'RG' : arrow ? 'G' : 'RAG',
      ...(onFoot ? { kind: 'pedestrian', clearance } : {}),
      minGreen,
      ...(demand === null ? {} : { demand: [demand] }),
    },
  ]);
  const always: string[] = stages.filter((stage) => !stage.skip).map((stage) => stage.id);
  const home = always.length === 0 ? (site.rest ?? null) : always.length === 1 ? (always[0] ?? null) : null;
  // The longest change: an amber or clearance of 9 s, 8 s more of intergreen, two delays of 4 s.
  const round = stages.reduce((sum, stage) => sum + Math.max(stage.green, stage.extend?.maximum ?? 0) + 25, 0);
  const last = stages.at(-1);
  if (last?.skip || last?.extend || chance(dice, 75)) {
    const layout = layoutOf(Object.fromEntries(words), site);
    return { layout, phases, intergreens, always, home, round: round * 1000 };
  }
  // On a common cycle: who is passed over waits for the next one, and the junction stands nowhere.
  const layout = layoutOf(Object.fromEntries(words), { ...site, group: 'street', offset: dice.int(0, 30) });
  layout.groups = [{ id: 'street', name: 'Street', board: 'b1', cycle: Math.min(round, 180) }];
  return { layout, phases, intergreens, always, home: null, round: 3 * 180_000 };
}
