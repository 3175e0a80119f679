/** A junction with its names resolved: what the interval computation works on. All times in ms. */

export interface PlannedPhase {
  readonly id: string;
  readonly name: string;
  readonly minGreen: number;
  /** How long it shows amber when it loses right of way; 0 for a filter arrow, which just goes out. */
  readonly amber: number;
  /** How long it shows red with amber before its green; 0 where the practice or the head has none. */
  readonly redWithAmber: number;
}

export interface PlannedStage {
  readonly id: string;
  readonly name: string;
  /** Indices of phases, ascending. */
  readonly phases: readonly number[];
  readonly green: number;
}

export interface JunctionPlan {
  readonly phases: readonly PlannedPhase[];
  readonly stages: readonly PlannedStage[];
  /**
   * `intergreens[from][to]`: least time from the end of green of one phase to
   * the start of green of the other; null where the two do not conflict.
   */
  readonly intergreens: readonly (readonly (number | null)[])[];
}

export function conflict(plan: JunctionPlan, one: number, other: number): boolean {
  return plan.intergreens[one]?.[other] != null || plan.intergreens[other]?.[one] != null;
}

/** All conflicting pairs, smaller index first. */
export function conflictPairs(plan: JunctionPlan): [number, number][] {
  const pairs: [number, number][] = [];
  for (let one = 0; one < plan.phases.length; one++) {
    for (let other = one + 1; other < plan.phases.length; other++) {
      if (conflict(plan, one, other)) pairs.push([one, other]);
    }
  }
  return pairs;
}
