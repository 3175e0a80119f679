/** When each phase is green on the ways through the stages, and what that asks of the stage times. */
import { interstage, type PlannedInterval } from './intervals.ts';
import { changesOf, nextStages } from './junction/order.ts';
import { delayOf, type JunctionPlan } from './plan.ts';

/** A demand on the sum of some stages' greens. */
export interface Need {
  /** Stage indices in the order in which they run. */
  readonly stages: readonly number[];
  /** Their greens together last at least this long, ms; above zero. */
  readonly ms: number;
  readonly phase: number;
  /** The intergreen that asks for it; null when it is the minimum green of `phase`. */
  readonly intergreen: { readonly from: number; readonly ms: number } | null;
}

/** Minimum greens, and intergreens between phases of stages that do not follow each other. */
export function needs(plan: JunctionPlan): Need[] {
  const ways = new Ways(plan);
  const all = [
    ...plan.phases.flatMap((_, phase) => minimumGreens(ways, phase)),
    ...plan.phases.flatMap((_, phase) => clearances(ways, phase)),
  ].filter((need) => need.ms > 0);
  // Ways over the same stages: the greatest demand of each phase is enough.
  const greatest = new Map<string, Need>();
  for (const need of all) {
    const key = [need.phase, need.intergreen?.from ?? '', [...need.stages].sort((x, y) => x - y)].join();
    if (need.ms > (greatest.get(key)?.ms ?? 0)) greatest.set(key, need);
  }
  return [...greatest.values()];
}

/** The stages as a graph, with the changes between them. */
class Ways {
  readonly plan: JunctionPlan;
  readonly next: readonly (readonly number[])[];
  private readonly changes = new Map<string, PlannedInterval[]>();

  constructor(plan: JunctionPlan) {
    this.plan = plan;
    this.next = plan.stages.map((_, stage) => nextStages(plan, stage));
    for (const { from, to } of changesOf(plan)) this.changes.set(`${from} ${to}`, interstage(plan, from, to));
  }

  has(stage: number, phase: number): boolean {
    return this.plan.stages[stage]?.phases.includes(phase) ?? false;
  }

  change(from: number, to: number): readonly PlannedInterval[] {
    return this.changes.get(`${from} ${to}`) ?? [];
  }

  /** Changes in which a phase gains or loses right of way. */
  edges(test: (from: number, to: number) => boolean): { from: number; to: number }[] {
    return this.next.flatMap((next, from) => next.filter((to) => test(from, to)).map((to) => ({ from, to })));
  }
}

function length(change: readonly PlannedInterval[]): number {
  return change.reduce((sum, it) => sum + it.ms, 0);
}

function greenIn(change: readonly PlannedInterval[], phase: number): number {
  return length(change.filter((it) => it.aspects[phase] === 'green'));
}

/** The stages of every unbroken green that begins and ends. */
function minimumGreens(ways: Ways, phase: number): Need[] {
  const found: Need[] = [];
  const minimum = ways.plan.phases[phase]?.minGreen ?? 0;
  const follow = (stages: readonly number[], extra: number): void => {
    const last = stages.at(-1) ?? 0;
    for (const next of ways.next[last] ?? []) {
      const green = extra + greenIn(ways.change(last, next), phase);
      if (!ways.has(next, phase)) found.push({ stages, phase, ms: minimum - green, intergreen: null });
      // A way that comes round again is only longer.
      else if (!stages.includes(next)) follow([...stages, next], green);
    }
  };
  for (const { from, to } of ways.edges((a, b) => !ways.has(a, phase) && ways.has(b, phase))) {
    follow([to], greenIn(ways.change(from, to), phase));
  }
  return found;
}

/** What must pass between the end of a green and the start of a conflicting one some stages later. */
function clearances(ways: Ways, phase: number): Need[] {
  const { plan } = ways;
  const found: Need[] = [];
  const follow = (stages: readonly number[], passed: number, gainer: number, required: number): void => {
    const last = stages.at(-1) ?? 0;
    for (const next of ways.next[last] ?? []) {
      const change = ways.change(last, next);
      if (ways.has(next, gainer)) {
        const ms = required - (passed + length(change) - greenIn(change, gainer));
        found.push({ stages, phase: gainer, ms, intergreen: { from: phase, ms: required } });
      } else if (!stages.includes(next) && passed + length(change) < required) {
        follow([...stages, next], passed + length(change), gainer, required);
      }
    }
  };
  for (const { from, to } of ways.edges((a, b) => ways.has(a, phase) && !ways.has(b, phase))) {
    const passed = length(ways.change(from, to)) - delayOf(plan, phase, from, to).end;
    plan.phases.forEach((_, gainer) => {
      const required = plan.intergreens[phase]?.[gainer];
      // Gained in this very change: the change itself keeps the intergreen.
      if (required == null || ways.has(to, gainer)) return;
      follow([to], passed, gainer, required);
    });
  }
  return found;
}

/**
 * Least green of each stage, ms, so that every need that the planned greens
 * meet is met at the least greens too. `floor` is the least of any stage.
 */
export function leastGreens(plan: JunctionPlan, floor: number, asked: readonly Need[] = needs(plan)): number[] {
  const least = plan.stages.map((stage) => Math.min(floor, stage.green));
  // Needs of a single stage first: longer ones then ask for less.
  const ordered = [...asked].sort((a, b) => a.stages.length - b.stages.length);
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
