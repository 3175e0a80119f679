/**
 * Which dial times which interval of a junction.
 *
 * Each stage has its green. All whole ambers share one dial, all whole
 * reds-with-amber another, so a nudge keeps them equal. Clearances share one
 * when they are equal, otherwise each has its own. An amber or red-with-amber
 * that another phase's change cuts in two cannot be nudged piece by piece: its
 * pieces have dials with equal limits, which stand still.
 *
 * The intervals of a change add up to the intergreens that decide it, so none
 * of their dials goes below what the file plans: with every dial at its least
 * every intergreen still holds.
 */

import type { JunctionPractice, Practice, TimeRule } from '../practice/practice.ts';
import type { DialLimits } from '../table/model.ts';
import type { PlannedInterval } from './intervals.ts';
import { seconds } from './names.ts';
import type { Extend, JunctionPlan, PlannedStage } from './plan.ts';
import { leastGreens, type Need, needs } from './runs.ts';

/** A dial of a site as the compiler knows it; times in ms. */
export interface PlannedDial extends DialLimits {
  /** Stable within the site. */
  readonly id: string;
  readonly value: number;
  /** Why it cannot be turned further down, where that is not plain from its name. */
  readonly leastBecause?: string;
  /** Of the practice; absent where no rule is behind it. */
  readonly rule?: TimeRule;
  /** The owner has set other limits: what they were without that, ms, and why. */
  readonly owner?: OwnLimits;
}

export interface OwnLimits extends Omit<DialLimits, 'name'> {
  readonly reason: string;
}

export interface DialPlan {
  readonly dials: readonly PlannedDial[];
  /** For each interval the index of its dial. */
  readonly of: readonly number[];
}

export function planDials(
  plan: JunctionPlan,
  intervals: readonly PlannedInterval[],
  practice: Pick<Practice, 'junction' | 'pedestrian'>,
): DialPlan {
  const made = intervals.map(dialMaker(plan, intervals, practice));
  const greens = made.filter((_, index) => intervals[index]?.cause.is === 'stage');
  const byId = new Map([...greens, ...made].reverse().map((dial) => [dial.id, dial]));
  const dials = [...new Set([...greens, ...made].map((dial) => dial.id))].flatMap((id) => byId.get(id) ?? []);
  return { dials, of: made.map((dial) => dials.findIndex((it) => it.id === dial.id)) };
}

function dialMaker(
  plan: JunctionPlan,
  intervals: readonly PlannedInterval[],
  practice: Pick<Practice, 'junction' | 'pedestrian'>,
): (interval: PlannedInterval) => PlannedDial {
  const rules = practice.junction;
  const asked = needs(plan);
  const least = leastGreens(plan, rules.green.dial.value[0], asked);
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
  const change = (rule: TimeRule, ms: number) => ({ ...changeLimits(rule, ms), value: ms, rule });
  return ({ cause, ms }) => {
    switch (cause.is) {
      case 'stage':
        return greenDial(plan, asked, cause.stage, ms, least[cause.stage] ?? ms, rules);
      case 'amber':
        return { id: 'amber', ...change(rules.amber, ms) };
      case 'red-with-amber':
        return { id: 'red-with-amber', ...change(rules.redWithAmber ?? rules.amber, ms) };
      case 'clearing': {
        const phase = plan.phases[cause.phase];
        const limits = change(practice.pedestrian.clearance, ms);
        const alone = plan.phases.every((it) => it.kind !== 'pedestrian' || it.amber === ms);
        return alone
          ? { id: 'clearance', ...limits }
          : { id: `clearance-${phase?.id}`, ...limits, name: `${limits.name}, ${phase?.name}` };
      }
      case 'clearance': {
        const limits = change(rules.allRed, ms);
        if (oneClearance) return { id: 'all-red', ...limits };
        const stage = plan.stages[cause.to];
        const id = `all-red-to-${stage?.id}${suffix(cause.to, ms)}`;
        return { id, ...limits, name: `${limits.name} before ${stage?.name}` };
      }
      case 'part':
        return {
          id: `fixed-${ms}`,
          name: `Part of a change, ${ms / 1000} s`,
          min: ms,
          max: ms,
          value: ms,
          leastBecause: 'Two phases change at the same time here; its parts cannot be turned one by one.',
        };
    }
  };
}

function greenDial(
  plan: JunctionPlan,
  asked: readonly Need[],
  at: number,
  ms: number,
  least: number,
  rules: JunctionPractice,
): PlannedDial {
  const stage = plan.stages[at];
  const because = greenBecause(plan, asked, at, least);
  return {
    id: `green-${stage?.id}`,
    name: `Green, ${stage?.name}`,
    min: least,
    max: Math.max(rules.green.dial.value[1], ms),
    value: ms,
    rule: rules.green,
    ...(because === null ? {} : { leastBecause: because }),
  };
}

/** The need that holds the least green of a stage up. */
function greenBecause(plan: JunctionPlan, asked: readonly Need[], stage: number, least: number): string | null {
  const alone = asked.find((it) => it.stages.length === 1 && it.stages[0] === stage && it.ms === least);
  const need = alone ?? asked.find((it) => it.stages.includes(stage));
  if (need === undefined) return null;
  const phase = plan.phases[need.phase];
  if (need.intergreen === null) return `${phase?.name} needs its minimum green of ${seconds(phase?.minGreen ?? 0)}.`;
  const from = plan.phases[need.intergreen.from]?.name;
  return `The intergreen of ${seconds(need.intergreen.ms)} from ${from} to ${phase?.name} runs through this stage.`;
}

/** Limits of one interval of a change: not below the plan. Minimum greens count the greens in changes, too. */
function changeLimits(rule: TimeRule, value: number): DialLimits & { leastBecause: string } {
  return {
    ...widened(rule, value),
    min: value,
    leastBecause: 'Intergreens and minimum greens of the file are made of it; shorter, and one of them would break.',
  };
}

/** The practice's limits, wide enough for the planned value. */
function widened(rule: TimeRule, value: number): DialLimits {
  const [min, max] = rule.dial.value;
  return { name: rule.name, min: Math.min(min, value), max: Math.max(max, value) };
}

/** Extension up to 31.8 s, maximum up to 255 s: UK controller handbook 667/HB/32900, p. 88-89. */
export const GREATEST_GAP = 31800;
const GREATEST_MAXIMUM = 255000;

export interface ExtensionDials {
  readonly gap: PlannedDial;
  readonly maximum: PlannedDial;
}

/**
 * The dials of a stage that vehicles extend; `greens` are those of `planDials`. Equal gaps share one.
 *
 * A green that the maximum ends before the gap can lapse counts as cut off, and calls its stage again, for
 * ever: so no gap can be turned above, and no maximum below, what its stages allow.
 */
export function extensionDials(
  plan: JunctionPlan,
  stage: PlannedStage,
  greens: readonly PlannedDial[],
): ExtensionDials | null {
  const { extend } = stage;
  if (extend === undefined) return null;
  const extended = plan.stages.flatMap((it) => (it.extend === undefined ? [] : [{ ...it, extend: it.extend }]));
  const one = extended.every((it) => it.extend.gap === extend.gap);
  const leastGreen = (it: PlannedStage): number => greens.find((dial) => dial.id === `green-${it.id}`)?.min ?? 0;
  const leastMaximum = (it: PlannedStage & { extend: Extend }): number =>
    Math.min(it.extend.maximum, Math.max(it.extend.gap, leastGreen(it)));
  const sharing = extended.filter((it) => one || it.id === stage.id);
  const room = Math.min(GREATEST_GAP, ...sharing.map((it) => Math.max(leastGreen(it), leastMaximum(it))));
  return {
    gap: {
      id: one ? 'gap' : `gap-${stage.id}`,
      name: one ? 'Gap' : `Gap, ${stage.name}`,
      min: 0,
      max: Math.max(room, extend.gap),
      value: extend.gap,
    },
    maximum: {
      id: `maximum-${stage.id}`,
      name: `Maximum, ${stage.name}`,
      min: leastMaximum({ ...stage, extend }),
      max: Math.max(GREATEST_MAXIMUM, extend.maximum),
      value: extend.maximum,
      leastBecause: 'A shorter one would cut off traffic that is not there, and call the stage again and again.',
    },
  };
}
