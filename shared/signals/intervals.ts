/**
 * From stages and intergreens to the intervals of one cycle.
 *
 * Between two stages the phases that lose right of way go amber and red at
 * once. Each phase that gains it becomes green at the first moment at which its
 * intergreens from all of them have passed, red with amber just before. Phases
 * in both stages stay green. The next stage begins when the last of its phases
 * is green and the last of the others is red.
 */
import { delayOf, type JunctionPlan } from './plan.ts';

/** clearing: people on foot may finish but not begin. */
export type PhaseAspect = 'red' | 'red-with-amber' | 'green' | 'amber' | 'clearing';

/** Why an interval is there, and so which dial times it. */
export type Cause =
  | { readonly is: 'stage'; readonly stage: number }
  /** All of the amber of the leaving phases. */
  | { readonly is: 'amber'; readonly to: number }
  /** All of the red with amber of a gaining phase. */
  | { readonly is: 'red-with-amber'; readonly to: number }
  /** All of the clearance of a leaving pedestrian phase, and nothing else. */
  | { readonly is: 'clearing'; readonly to: number; readonly phase: number }
  /** Nobody amber, nobody red with amber: waiting for an intergreen. */
  | { readonly is: 'clearance'; readonly to: number }
  /** Amber or red with amber, cut by another phase's change. */
  | { readonly is: 'part'; readonly to: number };

export interface PlannedInterval {
  readonly cause: Cause;
  /** One for each phase. */
  readonly aspects: readonly PhaseAspect[];
  readonly ms: number;
}

/** The intervals of a cycle in which every stage comes, from the first stage's green on. */
export function planIntervals(plan: JunctionPlan): PlannedInterval[] {
  return plan.stages.flatMap((_, index) => [stageInterval(plan, index), ...interstage(plan, index)]);
}

/** The green of a stage. */
export function stageInterval(plan: JunctionPlan, at: number): PlannedInterval {
  const stage = plan.stages[at];
  return {
    cause: { is: 'stage', stage: at },
    aspects: plan.phases.map((_, phase) => (stage?.phases.includes(phase) ? 'green' : 'red')),
    ms: stage?.green ?? 0,
  };
}

/** What one phase does in the change, times in ms after the end of the stage. */
interface Move {
  readonly phase: number;
  readonly pedestrian: boolean;
  readonly leaving: boolean;
  readonly gaining: boolean;
  /** Of a leaving phase: when its green ends. Of a gaining one: when its red with amber begins. */
  readonly begin: number;
  /** Of a leaving phase: when its amber or clearance ends. Of a gaining one: when its green begins. */
  readonly end: number;
}

/**
 * The change from stage `from` to stage `to`, the one after it unless told
 * otherwise. A new interval begins only where some phase changes its aspect,
 * so no shorter table does the same.
 */
export function interstage(plan: JunctionPlan, from: number, to = (from + 1) % plan.stages.length): PlannedInterval[] {
  const moves = movesOf(plan, from, to);
  const points = new Set([0]);
  for (const { leaving, gaining, begin, end } of moves) {
    if (leaving || gaining) points.add(end);
    if ((leaving && begin > 0) || (gaining && begin < end)) points.add(begin);
  }
  const times = [...points].sort((a, b) => a - b);
  return times.slice(0, -1).map((begin, index) => {
    const end = times[index + 1] ?? begin;
    return {
      cause: causeOf(moves, begin, end, to),
      aspects: moves.map((it, phase) => aspectAt(it, begin, plan.stages[from]?.phases.includes(phase) ?? false)),
      ms: end - begin,
    };
  });
}

function movesOf(plan: JunctionPlan, from: number, to: number): Move[] {
  const [before, after] = [plan.stages[from]?.phases ?? [], plan.stages[to]?.phases ?? []];
  const leavers = before
    .filter((phase) => !after.includes(phase))
    .map((phase) => ({ phase, end: delayOf(plan, phase, from, to).end }));
  return plan.phases.map((here, phase) => {
    const pedestrian = here.kind === 'pedestrian';
    const leaver = leavers.find((it) => it.phase === phase);
    if (leaver !== undefined) {
      return { phase, pedestrian, leaving: true, gaining: false, begin: leaver.end, end: leaver.end + here.amber };
    }
    if (before.includes(phase) || !after.includes(phase)) {
      return { phase, pedestrian, leaving: false, gaining: false, begin: 0, end: 0 };
    }
    const earliest = leavers.map((it) => {
      const intergreen = plan.intergreens[it.phase]?.[phase];
      return intergreen == null ? 0 : it.end + intergreen;
    });
    const end = Math.max(here.redWithAmber, ...earliest) + delayOf(plan, phase, from, to).start;
    return { phase, pedestrian, leaving: false, gaining: true, begin: end - here.redWithAmber, end };
  });
}

function aspectAt(move: Move, at: number, greenBefore: boolean): PhaseAspect {
  if (move.leaving) {
    if (at < move.begin) return 'green';
    if (at >= move.end) return 'red';
    return move.pedestrian ? 'clearing' : 'amber';
  }
  if (!move.gaining) return greenBefore ? 'green' : 'red';
  if (at >= move.end) return 'green';
  return at >= move.begin ? 'red-with-amber' : 'red';
}

/**
 * A clearance or a delayed green that runs beside an amber or a red with amber
 * does not count: a longer interval only makes it longer, too.
 */
function causeOf(moves: readonly Move[], begin: number, end: number, to: number): Cause {
  const now = moves.filter((it) => (it.leaving || it.gaining) && begin >= it.begin && begin < it.end);
  const ambers = now.filter((it) => it.leaving && !it.pedestrian);
  const clearings = now.filter((it) => it.leaving && it.pedestrian);
  const gains = now.filter((it) => it.gaining);
  const delayed = moves.some((it) => it.leaving && begin < it.begin);
  const whole = (it: Move): boolean => begin === it.begin && end === it.end;
  if (ambers.length === 0 && gains.length === 0) {
    const [first] = clearings;
    if (first === undefined) return { is: delayed ? 'part' : 'clearance', to };
    return clearings.every(whole) && !delayed ? { is: 'clearing', to, phase: first.phase } : { is: 'part', to };
  }
  if (gains.length === 0 && ambers.every(whole)) return { is: 'amber', to };
  if (ambers.length === 0 && gains.every(whole)) return { is: 'red-with-amber', to };
  return { is: 'part', to };
}
