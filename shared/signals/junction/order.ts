/**
 * Which stage can follow which. Stages come in the order of the file; one that
 * is skipped without demand is passed over, so after a stage any of the next
 * ones may come, up to the first that comes always.
 */
import type { JunctionPlan } from '../plan.ts';

export interface Follower {
  readonly stage: number;
  /** Ids of inputs of which a latched demand brings it; null: it comes without. */
  readonly inputs: readonly string[] | null;
}

export interface Order {
  /** In the order in which they are asked. */
  readonly followers: readonly Follower[];
  /** The stage is left only when somebody asks for one of the followers. */
  readonly waits: boolean;
}

export function orderAfter(plan: JunctionPlan, from: number): Order {
  const count = plan.stages.length;
  const followers: Follower[] = [];
  if (count < 2) return { followers, waits: false };
  for (let step = 1; step < count; step++) {
    const to = (from + step) % count;
    if (!plan.stages[to]?.skip) return { followers: [...followers, { stage: to, inputs: null }], waits: false };
    const inputs = callsOf(plan, from, to);
    if (inputs.length > 0) followers.push({ stage: to, inputs });
  }
  const rest = plan.rest ?? from;
  if (rest === from) return { followers, waits: true };
  return { followers: [...followers, { stage: rest, inputs: null }], waits: false };
}

/** Inputs that call a stage from another one: those of phases that are not green already. */
function callsOf(plan: JunctionPlan, from: number, to: number): string[] {
  const stage = plan.stages[to];
  const green = plan.stages[from]?.phases ?? [];
  const callers = (stage?.calledBy ?? stage?.phases ?? []).filter((phase) => !green.includes(phase));
  return [...new Set(callers.flatMap((phase) => plan.phases[phase]?.demand ?? []))];
}

export interface Change {
  readonly from: number;
  readonly to: number;
}

/** Every change of stages that can happen; first the one to the next stage, where it can. */
export function changesOf(plan: JunctionPlan): Change[] {
  return plan.stages.flatMap((_, from) => nextStages(plan, from).map((to) => ({ from, to })));
}

export function nextStages(plan: JunctionPlan, from: number): number[] {
  return [...new Set(orderAfter(plan, from).followers.map((it) => it.stage))];
}

/** Stages that can be reached from the first one. */
export function reachable(plan: JunctionPlan): Set<number> {
  const found = new Set([0]);
  for (const stage of found) for (const next of nextStages(plan, stage)) found.add(next);
  return found;
}
