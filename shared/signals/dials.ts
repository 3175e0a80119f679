/**
 * Which dial times which interval of a junction.
 *
 * Each stage has its green. All whole ambers share one dial, all whole
 * reds-with-amber another, so a nudge keeps them equal. Clearances share one
 * when they are equal, otherwise each has its own. An amber or red-with-amber
 * that another phase's change cuts in two cannot be nudged piece by piece: its
 * pieces have dials with equal limits, which stand still.
 */

import type { JunctionPractice, TimeRule } from '../practice/practice.ts';
import type { DialLimits } from '../table/model.ts';
import type { PlannedInterval } from './intervals.ts';
import type { JunctionPlan } from './plan.ts';
import { leastGreens } from './runs.ts';

/** A dial of a site as the compiler knows it; times in ms. */
export interface PlannedDial extends DialLimits {
  /** Stable within the site. */
  readonly id: string;
  readonly value: number;
}

export interface DialPlan {
  readonly dials: readonly PlannedDial[];
  /** For each interval the index of its dial. */
  readonly of: readonly number[];
}

export function planDials(
  plan: JunctionPlan,
  intervals: readonly PlannedInterval[],
  practice: JunctionPractice,
): DialPlan {
  const least = leastGreens(plan, practice.green.dial.value[0]);
  const waits = intervals.filter((it) => it.cause.is === 'clearance');
  const oneClearance = new Set(waits.map((it) => it.ms)).size <= 1;
  /** Distinguishes clearances of different length within one change. */
  const suffix = (to: number, ms: number): string => {
    const lengths = [
      ...new Set(waits.filter((it) => it.cause.is === 'clearance' && it.cause.to === to).map((it) => it.ms)),
    ];
    const index = lengths.indexOf(ms);
    return index > 0 ? `-${index + 1}` : '';
  };
  const dialOf = (interval: PlannedInterval): PlannedDial => {
    const { cause, ms } = interval;
    switch (cause.is) {
      case 'stage': {
        const stage = plan.stages[cause.stage];
        const limits = { ...widened(practice.green, ms), min: least[cause.stage] ?? ms };
        return { id: `green-${stage?.id}`, ...limits, name: `Green, ${stage?.name}`, value: ms };
      }
      case 'amber':
        return { id: 'amber', ...widened(practice.amber, ms), value: ms };
      case 'red-with-amber':
        return { id: 'red-with-amber', ...widened(practice.redWithAmber ?? practice.amber, ms), value: ms };
      case 'clearance': {
        const limits = widened(practice.allRed, ms);
        if (oneClearance) return { id: 'all-red', ...limits, value: ms };
        const stage = plan.stages[cause.to];
        const id = `all-red-to-${stage?.id}${suffix(cause.to, ms)}`;
        return { id, ...limits, name: `${limits.name} before ${stage?.name}`, value: ms };
      }
      case 'part':
        return { id: `fixed-${ms}`, name: `Part of a change, ${ms / 1000} s`, min: ms, max: ms, value: ms };
    }
  };
  const dials: PlannedDial[] = [];
  const order = [...intervals.filter((it) => it.cause.is === 'stage'), ...intervals].map(dialOf);
  for (const dial of order) if (!dials.some((it) => it.id === dial.id)) dials.push(dial);
  const of = intervals.map((interval) => dials.findIndex((it) => it.id === dialOf(interval).id));
  return { dials, of };
}

/** The practice's limits, wide enough for the planned value. */
function widened(rule: TimeRule, value: number): DialLimits {
  const [min, max] = rule.dial.value;
  return { name: rule.name, min: Math.min(min, value), max: Math.max(max, value) };
}
