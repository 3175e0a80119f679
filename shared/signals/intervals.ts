/**
 * From stages and intergreens to the intervals of one cycle.
 *
 * Between two stages the phases that lose right of way go amber and red at
 * once. Each phase that gains it becomes green at the first moment at which its
 * intergreens from all of them have passed, red with amber just before. Phases
 * in both stages stay green. The next stage begins when the last of its phases
 * is green.
 */
import type { JunctionPlan, PlannedStage } from './plan.ts';

export type PhaseAspect = 'red' | 'red-with-amber' | 'green' | 'amber';

/** Why an interval is there, and so which dial times it. */
export type Cause =
  | { readonly is: 'stage'; readonly stage: number }
  /** All of the amber of the leaving phases. */
  | { readonly is: 'amber'; readonly to: number }
  /** All of the red with amber of a gaining phase. */
  | { readonly is: 'red-with-amber'; readonly to: number }
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

/** The intervals of a cycle, from the first stage's green on. */
export function planIntervals(plan: JunctionPlan): PlannedInterval[] {
  return plan.stages.flatMap((stage, index) => [
    {
      cause: { is: 'stage', stage: index } as const,
      aspects: plan.phases.map((_, phase) => (stage.phases.includes(phase) ? ('green' as const) : ('red' as const))),
      ms: stage.green,
    },
    ...interstage(plan, index),
  ]);
}

/** What one phase does in the change, times in ms after the end of the stage. */
interface Move {
  readonly leaving: boolean;
  readonly gaining: boolean;
  /** Of a leaving phase: when its amber ends. Of a gaining one: when its green begins. */
  readonly end: number;
  /** When its red with amber begins. */
  readonly begin: number;
}

/**
 * The change from stage `from` to the one after it. A new interval begins only
 * where some phase changes its aspect, so no shorter table does the same.
 */
export function interstage(plan: JunctionPlan, from: number): PlannedInterval[] {
  const to = (from + 1) % plan.stages.length;
  const moves = plan.phases.map((_, phase) => move(plan, plan.stages[from], plan.stages[to], phase));
  const points = new Set([0]);
  for (const { leaving, gaining, begin, end } of moves) {
    if (leaving || gaining) points.add(end);
    if (gaining && begin < end) points.add(begin);
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

function move(plan: JunctionPlan, from: PlannedStage | undefined, to: PlannedStage | undefined, phase: number): Move {
  const here = plan.phases[phase];
  const before = from?.phases.includes(phase) ?? false;
  const after = to?.phases.includes(phase) ?? false;
  if (before && !after) return { leaving: true, gaining: false, begin: 0, end: here?.amber ?? 0 };
  if (before || !after) return { leaving: false, gaining: false, begin: 0, end: 0 };
  const redWithAmber = here?.redWithAmber ?? 0;
  let end = redWithAmber;
  for (const leaver of from?.phases ?? []) {
    if (to?.phases.includes(leaver)) continue;
    end = Math.max(end, plan.intergreens[leaver]?.[phase] ?? 0);
  }
  return { leaving: false, gaining: true, begin: end - redWithAmber, end };
}

function aspectAt(move: Move, at: number, greenBefore: boolean): PhaseAspect {
  if (move.leaving) return at < move.end ? 'amber' : 'red';
  if (!move.gaining) return greenBefore ? 'green' : 'red';
  if (at >= move.end) return 'green';
  return at >= move.begin ? 'red-with-amber' : 'red';
}

function causeOf(moves: readonly Move[], begin: number, end: number, to: number): Cause {
  const ambers = moves.filter((it) => it.leaving && begin < it.end);
  const gains = moves.filter((it) => it.gaining && begin >= it.begin && begin < it.end);
  if (ambers.length === 0 && gains.length === 0) return { is: 'clearance', to };
  const whole = (it: Move): boolean => (it.leaving ? begin === 0 : begin === it.begin) && end === it.end;
  if (gains.length === 0 && ambers.every(whole)) return { is: 'amber', to };
  if (ambers.length === 0 && gains.every(whole)) return { is: 'red-with-amber', to };
  return { is: 'part', to };
}
