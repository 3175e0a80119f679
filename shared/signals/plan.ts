/** A junction with its names resolved: what the interval computation works on. All times in ms. */

export interface PlannedPhase {
  readonly id: string;
  readonly name: string;
  /** Absent: vehicles. */
  readonly kind?: 'vehicle' | 'pedestrian';
  readonly minGreen: number;
  /**
   * How long it goes on after its green when it loses right of way: amber, or the clearance of a
   * pedestrian phase; 0 for a filter arrow, which just goes out.
   */
  readonly amber: number;
  /** How long it shows red with amber before its green; 0 where the practice or the head has none. */
  readonly redWithAmber: number;
  /** Ids of inputs that ask for it. */
  readonly demand?: readonly string[];
}

export interface PlannedStage {
  readonly id: string;
  readonly name: string;
  /** Indices of phases, ascending. */
  readonly phases: readonly number[];
  /** The least green where the stage is extended or waits. */
  readonly green: number;
  /** Left out while none of `calledBy` has a demand. */
  readonly skip?: boolean;
  /** Phases whose demands call it; absent: all its phases. */
  readonly calledBy?: readonly number[];
  readonly extend?: Extend;
}

export interface Extend {
  readonly gap: number;
  readonly maximum: number;
  /** Ids of inputs. */
  readonly detectors: readonly string[];
}

export interface PlannedDelay {
  readonly phase: number;
  /** Stages; null for any. */
  readonly from: number | null;
  readonly to: number | null;
  readonly start: number;
  readonly end: number;
}

export interface JunctionPlan {
  readonly phases: readonly PlannedPhase[];
  readonly stages: readonly PlannedStage[];
  /**
   * `intergreens[from][to]`: least time from the end of green of one phase to
   * the start of green of the other; null where the two do not conflict.
   */
  readonly intergreens: readonly (readonly (number | null)[])[];
  readonly delays?: readonly PlannedDelay[];
  /** Stage to wait in; absent or null: the one that is running. */
  readonly rest?: number | null;
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

/** How much later a phase starts and ends in one change of stages. */
export function delayOf(plan: JunctionPlan, phase: number, from: number, to: number): { start: number; end: number } {
  const found = (plan.delays ?? []).filter(
    (it) => it.phase === phase && (it.from ?? from) === from && (it.to ?? to) === to,
  );
  return { start: Math.max(0, ...found.map((it) => it.start)), end: Math.max(0, ...found.map((it) => it.end)) };
}
