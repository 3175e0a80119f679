/** The United Kingdom, today and in the middle of the 1960s. */
import {
  COMMON,
  type Fact,
  fact,
  type JunctionPractice,
  type Practice,
  type TimeRule,
  type ZebraPractice,
} from './practice.ts';

const TAL = 'Traffic Advisory Leaflet 1/06';
const HANDBOOK = 'UK controller handbook 667/HB/32900, p. 72-73, 88-89';

/** Published times hold within this much, ms. */
export const UK_TOLERANCE = fact(250, 'seen', `${TAL} part 4, diagram 1`);

const MODEL_DIAL = `${COMMON}: model layouts shorten and stretch times`;

/** A time that the practice fixes: the range is the value and its tolerance. */
function fixed(name: string, usual: Fact<number>, dial: readonly [number, number]): TimeRule {
  const { value, confidence, source } = usual;
  const range = [value - UK_TOLERANCE.value, value + UK_TOLERANCE.value] as const;
  return {
    name,
    usual,
    range: fact(range, confidence === 'seen' ? 'derived' : confidence, `${source}; ${UK_TOLERANCE.source}`),
    dial: fact(dial, 'common', MODEL_DIAL),
  };
}

const amber = fixed('Amber', fact(3000, 'seen', `${TAL} part 2 (abstract)`), [1000, 10000]);
const redWithAmber = fixed('Red with amber', fact(2000, 'seen', `${TAL} part 2 (abstract)`), [500, 10000]);

const today: JunctionPractice = {
  order: fact(['red', 'red-with-amber', 'green', 'amber'], 'seen', 'Traffic Signs Regulations 1994, reg. 30(4)'),
  amber,
  redWithAmber,
  allRed: {
    name: 'All red',
    usual: fact(0, 'seen', `${TAL}: worked interstage of 5 s, amber 3 + red with amber 2`),
    range: null,
    dial: fact([100, 199000], 'seen', `${HANDBOOK}: intergreen up to 199 s`),
  },
  minGreen: fact(7000, 'memory', 'Traffic Signs Manual chapter 6, from memory'),
  green: {
    name: 'Green',
    usual: fact(15000, 'common', COMMON),
    range: null,
    dial: fact([1000, 255000], 'seen', `${HANDBOOK}: maximum green up to 255 s`),
  },
  // Flashing amber is no fault aspect of UK junctions; the heads go out.
  fault: fact('dark', 'common', COMMON),
  safe: fact('red', 'common', COMMON),
};

const BS8442 = 'BS 8442:2015 clause 12, as three others quote it';

const zebraToday: ZebraPractice = {
  exists: fact(true, 'seen', 'TSRGD 2016, Schedule 14 Part 4'),
  on: fixed('Lit', fact(750, 'quoted', BS8442), [100, 5000]),
  off: fixed('Dark', fact(750, 'quoted', BS8442), [100, 5000]),
  fault: fact('dark', 'common', COMMON),
};

const DRIVES = fact('left' as const, 'common', COMMON);

export const UK_TODAY: Practice = {
  id: 'uk-today',
  name: 'United Kingdom, today',
  drives: DRIVES,
  junction: today,
  zebra: zebraToday,
};

function assumed<T>(present: Fact<T>): Fact<T> {
  return fact(present.value, 'assumed', `not found for the 1960s; assumed as today (${present.source})`);
}

/** The value of today as a default; without a published one no range to be warned about. */
function assumedTime(rule: TimeRule): TimeRule {
  return { ...rule, usual: assumed(rule.usual), range: null };
}

export const UK_1965: Practice = {
  id: 'uk-1965',
  name: 'United Kingdom, mid-1960s',
  drives: DRIVES,
  junction: {
    ...today,
    order: fact(
      today.order.value,
      'assumed',
      'red with amber in the 1933 regulations, ¶28 (Hansard 1934); order as today',
    ),
    amber: assumedTime(amber),
    redWithAmber: assumedTime(redWithAmber),
    allRed: assumedTime(today.allRed),
    minGreen: assumed(today.minGreen),
  },
  zebra: {
    exists: fact(true, 'seen', 'Traffic Signs Committee report 1963, ¶252, 255: flashing amber globes, banded posts'),
    on: assumedTime(zebraToday.on),
    off: assumedTime(zebraToday.off),
    fault: zebraToday.fault,
  },
};
