/** The conflict check: no interval shows two conflicting phases other than red. */
import type { PhaseAspect, PlannedInterval } from './intervals.ts';
import { conflictPairs, type JunctionPlan } from './plan.ts';

export interface Breach {
  /** Index of the interval or stage. */
  readonly at: number;
  /** The two phases. */
  readonly pair: readonly [number, number];
}

/** Stages that give right of way to two conflicting phases. */
export function conflictingStages(plan: JunctionPlan): Breach[] {
  const pairs = conflictPairs(plan);
  return plan.stages.flatMap((stage, at) =>
    pairs.filter((pair) => pair.every((phase) => stage.phases.includes(phase))).map((pair) => ({ at, pair })),
  );
}

/**
 * Intervals in which one phase may move while a conflicting one may, too.
 * Red with amber forbids as red does (TSRGD 2016, Schedule 14 Part 1
 * paragraph 5(7)), so it stands beside an amber; green and amber do not stand
 * beside each other.
 */
export function conflictingIntervals(plan: JunctionPlan, intervals: readonly PlannedInterval[]): Breach[] {
  const pairs = conflictPairs(plan);
  return intervals.flatMap((interval, at) =>
    pairs.filter((pair) => breach(interval.aspects[pair[0]], interval.aspects[pair[1]])).map((pair) => ({ at, pair })),
  );
}

function moves(aspect: PhaseAspect | undefined): boolean {
  return aspect === 'green' || aspect === 'amber' || aspect === 'clearing';
}

function breach(one: PhaseAspect | undefined, other: PhaseAspect | undefined): boolean {
  return moves(one) && moves(other) && (one === 'green' || other === 'green');
}
