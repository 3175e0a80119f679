/** When each phase is green in a cycle, and what that asks of the stage times. */
import type { PlannedInterval } from './intervals.ts';
import { interstage } from './intervals.ts';
import type { JunctionPlan } from './plan.ts';

/** One unbroken green of a phase. */
export interface GreenRun {
  readonly phase: number;
  /** Stages in which it is green, in order. */
  readonly stages: readonly number[];
  /** Green before the first of these stages begins, and in the changes between them, ms. */
  readonly extra: number;
}

/** All greens that begin and end within the cycle; a phase that is green in every stage has none. */
export function greenRuns(plan: JunctionPlan): GreenRun[] {
  const count = plan.stages.length;
  const changes = plan.stages.map((_, index) => interstage(plan, index));
  return plan.phases.flatMap((_, phase) => {
    const has = (stage: number): boolean => plan.stages[stage % count]?.phases.includes(phase) ?? false;
    const firsts = plan.stages.map((_, index) => index).filter((index) => has(index) && !has(index + count - 1));
    return firsts.map((first) => {
      const stages: number[] = [];
      for (let stage = first; has(stage); stage++) stages.push(stage % count);
      const before = [first + count - 1, ...stages.slice(0, -1)].map((stage) => stage % count);
      const extra = before.reduce((sum, stage) => sum + greenIn(changes[stage] ?? [], phase), 0);
      return { phase, stages, extra };
    });
  });
}

function greenIn(change: readonly PlannedInterval[], phase: number): number {
  return change.filter((it) => it.aspects[phase] === 'green').reduce((sum, it) => sum + it.ms, 0);
}

/** A demand on the sum of some stages' greens. */
export interface Need {
  /** Stage indices in the order in which they run. */
  readonly stages: readonly number[];
  /** Their greens together last at least this long, ms. */
  readonly ms: number;
  readonly phase: number;
  /** The intergreen that asks for it; null when it is the minimum green of `phase`. */
  readonly intergreen: { readonly from: number; readonly ms: number } | null;
}

/** Minimum greens, and intergreens between phases of stages that do not follow each other. */
export function needs(plan: JunctionPlan): Need[] {
  const runs = greenRuns(plan);
  const greens = runs.map(({ phase, stages, extra }) => ({
    stages,
    phase,
    ms: (plan.phases[phase]?.minGreen ?? 0) - extra,
    intergreen: null,
  }));
  return [...greens, ...runs.flatMap((run) => clearances(plan, run, runs))];
}

/** What must pass between the end of a run and the begin of a later one of a conflicting phase. */
function clearances(plan: JunctionPlan, run: GreenRun, runs: readonly GreenRun[]): Need[] {
  const count = plan.stages.length;
  const last = run.stages.at(-1) ?? 0;
  return runs.flatMap((later) => {
    const required = plan.intergreens[run.phase]?.[later.phase];
    const first = later.stages[0] ?? 0;
    const between = (first - last - 1 + count) % count;
    // With nothing between, the change itself keeps the intergreen.
    if (required == null || between === 0) return [];
    const stages = Array.from({ length: between }, (_, index) => (last + 1 + index) % count);
    const changes = [last, ...stages].flatMap((stage) => interstage(plan, stage));
    const total = changes.reduce((sum, it) => sum + it.ms, 0);
    const early = greenIn(interstage(plan, (first + count - 1) % count), later.phase);
    return [
      { stages, phase: later.phase, ms: required - (total - early), intergreen: { from: run.phase, ms: required } },
    ];
  });
}

/**
 * Least green of each stage, ms, so that every need that the planned greens
 * meet is met at the least greens too. `floor` is the least of any stage.
 */
export function leastGreens(plan: JunctionPlan, floor: number): number[] {
  const least = plan.stages.map((stage) => Math.min(floor, stage.green));
  // Needs of a single stage first: longer ones then ask for less.
  const ordered = [...needs(plan)].sort((a, b) => a.stages.length - b.stages.length);
  for (const need of ordered) {
    let short = need.ms - need.stages.reduce((sum, stage) => sum + (least[stage] ?? 0), 0);
    for (const stage of need.stages) {
      const now = least[stage] ?? 0;
      const room = Math.max(0, (plan.stages[stage]?.green ?? 0) - now);
      const rise = Math.min(Math.max(0, short), room);
      least[stage] = now + rise;
      short -= rise;
    }
  }
  return least;
}
