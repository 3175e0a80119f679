/** What the planners of lamp groups share: dials from rules, rows with names to jump to, common findings. */
import type { Finding } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { NamedLamp } from '../../layout/outputs.ts';
import { toMs } from '../../layout/scalars.ts';
import type { FlashRule, TimeRule } from '../../practice/practice.ts';
import type { Condition, Interval, Program, Row } from '../../table/model.ts';
import type { PlannedDial } from '../dials.ts';
import { seconds } from '../names.ts';
import type { PlannedLamp } from '../site.ts';

/** A dial with the limits of its rule; `value` in seconds, absent where the practice's is used. */
export function ruleDial(id: string, rule: TimeRule, value: number | undefined): PlannedDial {
  const [min, max] = rule.dial.value;
  return { id, name: rule.name, min, max, value: value === undefined ? rule.usual.value : toMs(value), rule };
}

/** For rows that may end in any tick. */
export const AT_ONCE: PlannedDial = { id: 'at-once', name: 'At once', min: 0, max: 0, value: 0 };

export const ALWAYS: Condition = { kind: 'noDemand', inputs: [] };
export const NEVER: Condition = { kind: 'active', inputs: [] };

/** A row with its label; `at` is a name that jumps lead to. */
export interface Step {
  readonly at?: string;
  readonly label: string;
  readonly row: Interval | { readonly op: 'jump'; readonly when: Condition; readonly to: string };
}

export function jump(when: Condition, to: string, label: string): Step {
  return { label, row: { op: 'jump', when, to } };
}

/** Row number of each name; the last step with a name counts. */
export function places(steps: readonly Step[]): ReadonlyMap<string, number> {
  return new Map(steps.flatMap(({ at }, index): [string, number][] => (at === undefined ? [] : [[at, index]])));
}

export function rowsOf(steps: readonly Step[]): Row[] {
  const known = places(steps);
  return steps.map(({ row }) => (row.op === 'jump' ? { ...row, to: known.get(row.to) ?? 0 } : row));
}

export function limitsOf(dials: readonly PlannedDial[]): Program['dials'] {
  return dials.map(({ id, min, max }) => ({ name: id, min, max }));
}

/** Lamps of a list; `colour` where one has none of its own. */
export function plannedLamps(
  lamps: readonly (Omit<NamedLamp, 'colour'> & { readonly colour?: string | undefined })[],
  path: string,
  colour: (index: number) => string,
): PlannedLamp[] {
  return lamps.map((lamp, index) => ({
    label: lamp.name ?? lamp.id,
    colour: lamp.colour ?? colour(index),
    output: lamp,
    path: `${path}.lamps[${index}]`,
  }));
}

export function notUsed(path: string, what: string, because: string): Finding {
  return warning('not-used', path, { what: `"${what}" is not used here.`, why: `${because}.`, cure: 'Take it out.' });
}

/** A site of a kind that has a rhythm of its own and nothing to do with a common cycle. */
export function noGroup(site: { readonly group?: string | undefined }, path: string): Finding[] {
  if (site.group === undefined) return [];
  return [notUsed(`${path}.group`, 'group', 'Nothing of it waits for a common cycle')];
}

/** Low and high end of a random time, ms, that are the wrong way round: the board then takes the low one. */
export function checkBetween(low: PlannedDial, high: PlannedDial, path: string): Finding[] {
  if (low.value <= high.value) return [];
  return [
    warning('between-swapped', path, {
      what: `The shortest time, ${seconds(low.value)}, is longer than the longest, ${seconds(high.value)}.`,
      why: `Nothing would be left to chance: it would always take ${seconds(low.value)}.`,
      cure: 'Swap the two.',
    }),
  ];
}

/** The rate of lamps that flash once in `period` ms, lit for `lit` of it. */
export function checkRate(lit: number, period: number, rule: FlashRule, path: string): Finding[] {
  const rate = 60_000 / period;
  const [least, greatest] = rule.perMinute.value;
  const findings: Finding[] = [];
  if (rate < least || rate > greatest) {
    findings.push(
      warning('flash-rate', path, {
        what: `The lamps flash ${Math.round(rate * 10) / 10} times a minute.`,
        why: `${least} to ${greatest} would look right (${rule.perMinute.source}).`,
        cure: 'Change the times, or leave them if you like them so.',
      }),
    );
  }
  const share = lit / period;
  if (rule.lit !== null && (share < rule.lit.value[0] || share > rule.lit.value[1])) {
    const [low, high] = rule.lit.value.map((part) => Math.round(part * 100));
    findings.push(
      warning('flash-share', path, {
        what: `The lamps are lit for ${Math.round(share * 100)} % of each flash.`,
        why: `${low} to ${high} % would look right (${rule.lit.source}).`,
        cure: 'Change the times, or leave them if you like them so.',
      }),
    );
  }
  return findings;
}
