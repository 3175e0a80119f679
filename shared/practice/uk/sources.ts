/** Publications that the values of the UK come from, and how exactly they hold. */
import { type Fact, fact, MODEL_DIAL, type Span, type TimeRule } from '../fact.ts';

export const TAL = 'Traffic Advisory Leaflet 1/06';
export const HANDBOOK = 'UK controller handbook 667/HB/32900, p. 72-73, 88-89';
export const HANDBOOK_FLASH = 'UK controller handbook 667/HB/32900 §28.5.3: 400 ms / 400 ms';
export const LTN = 'Local Transport Note 2/95, from memory';
export const HANSARD_1977 = 'Hansard, HC 28 Jul 1977 c1399: 7 s green man + 10 s flashing = 17 s';
export const HISTORIES = 'several histories of crossings: panda 1962, pelican 1969, puffin 1992';
export const SI_1997 = 'SI 1997/2400';
export const MOTOR_1969 = 'Commercial Motor, 19 Sep 1969, p. 31';

/** Published times hold within this much, ms. */
export const UK_TOLERANCE = fact(250, 'seen', `${TAL} part 4, diagram 1`);

/** A time that the practice fixes: the range is the value and its tolerance. */
export function fixed(name: string, usual: Fact<number>, dial: Span): TimeRule {
  const { value, confidence, source } = usual;
  const range = [value - UK_TOLERANCE.value, value + UK_TOLERANCE.value] as const;
  return {
    name,
    usual,
    range: fact(range, confidence === 'seen' ? 'derived' : confidence, `${source}; ${UK_TOLERANCE.source}`),
    dial: fact(dial, 'common', MODEL_DIAL),
  };
}

/** The value of today as a default for the 1960s; without a published one no range to be warned about. */
export function assumedTime(rule: TimeRule): TimeRule {
  return { ...rule, usual: assumed(rule.usual), range: null };
}

export function assumed<T>(present: Fact<T>): Fact<T> {
  return fact(present.value, 'assumed', `not found for the 1960s; assumed as today (${present.source})`);
}
