/** A stage's green and the changes to every stage that can follow it, each interval made once. */
import { interstage, type PlannedInterval, stageInterval } from '../intervals.ts';
import type { JunctionPlan } from '../plan.ts';
import { nextStages } from './order.ts';

export interface Section {
  readonly green: PlannedInterval;
  /** By the stage that follows. */
  readonly changes: ReadonlyMap<number, readonly PlannedInterval[]>;
}

export function sectionsOf(plan: JunctionPlan): Section[] {
  return plan.stages.map((_, at) => ({
    green: stageInterval(plan, at),
    changes: new Map(nextStages(plan, at).map((to) => [to, interstage(plan, at, to)])),
  }));
}

/** All intervals in the order of the stages. */
export function intervalsOf(sections: readonly Section[]): PlannedInterval[] {
  return sections.flatMap(({ green, changes }) => [green, ...[...changes.values()].flat()]);
}
