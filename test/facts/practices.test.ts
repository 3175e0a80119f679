/** Every published value of the practices, against the source named beside it. */
import { describe, expect, it } from 'vitest';
import { GERMANY_TODAY } from '../../shared/practice/germany.ts';
import type { FlashRule, Practice, Span, TimeRule } from '../../shared/practice/practice.ts';
import { findPractice, PRACTICES } from '../../shared/practice/practices.ts';
import { UK_1965, UK_TODAY, UK_TOLERANCE } from '../../shared/practice/uk.ts';
import { USA_TODAY } from '../../shared/practice/usa.ts';
import { anyValue, factAt, factsOf, isPublished, published, type Row } from './published.ts';
import { GERMANY_ROWS, LAMP_ROWS, USA_ROWS } from './rows/abroad.ts';
import { UK_1965_ROWS, UK_TODAY_ROWS } from './rows/uk.ts';

const TABLES: readonly (readonly [Practice, readonly Row[]])[] = [
  [UK_TODAY, [...UK_TODAY_ROWS, ...LAMP_ROWS]],
  [UK_1965, UK_1965_ROWS],
  [USA_TODAY, USA_ROWS],
  [GERMANY_TODAY, GERMANY_ROWS],
];

describe.each(TABLES.map(([practice, rows]) => ({ name: practice.name, practice, rows })))(
  '$name',
  ({ practice, rows }) => {
    it.each(rows)('%s is %j: %s', (place, value, source) => {
      const fact = factAt(practice, place);
      expect(published(fact)).toEqual(value);
      expect(fact.source).toContain(source);
    });
  },
);

it('no published value of any practice is left out', () => {
  const checked = new Set(TABLES.flatMap(([practice, rows]) => rows.map(([place]) => factAt(practice, place))));
  const open = PRACTICES.flatMap((practice) =>
    factsOf(practice)
      .filter(({ fact }) => isPublished(fact) && !checked.has(fact))
      .map(({ place, fact }) => `${practice.id} ${place}: ${fact.source}`),
  );
  expect(open).toEqual([]);
});

describe('what the values come to', () => {
  const perMinute = (on: TimeRule, off: TimeRule): number => 60000 / (published(on.usual) + published(off.usual));

  function keeps(rule: FlashRule | null, on: TimeRule, off: TimeRule): void {
    const [least, greatest] = published(rule?.perMinute);
    expect(perMinute(on, off)).toBeGreaterThanOrEqual(least);
    expect(perMinute(on, off)).toBeLessThanOrEqual(greatest);
  }

  it('zebra beacons flash 40 times a minute: BS 8442:2015 clause 12', () => {
    expect(perMinute(UK_TODAY.zebra.on, UK_TODAY.zebra.off)).toBe(40);
  });

  it('times of the UK hold within 250 ms: Traffic Advisory Leaflet 1/06 part 4, diagram 1', () => {
    expect(published(UK_TOLERANCE)).toBe(250);
  });

  it('a crossing of 1977 gave 17 s on foot: Hansard, HC 28 Jul 1977 c1399', () => {
    expect(published(UK_TODAY.pelican.steadyGreen.usual) + published(UK_TODAY.pelican.flashing.usual)).toBe(17000);
  });

  it('the flasher of UK controllers gives 75 a minute: 667/HB/32900 §28.5.3', () => {
    expect(perMinute(UK_TODAY.levelCrossing.flashOn, UK_TODAY.levelCrossing.flashOff)).toBe(75);
    expect(perMinute(UK_TODAY.pelican.flashOn, UK_TODAY.pelican.flashOff)).toBe(75);
  });

  it('flashing in the USA keeps its own rule: MUTCD 11th edition §4G.01 ¶01-02', () => {
    const { flashRate, flashOn, flashOff } = USA_TODAY.crossing;
    keeps(flashRate, flashOn, flashOff);
    const [least, greatest] = published(flashRate?.lit);
    const share = (published(flashOn.usual) * perMinute(flashOn, flashOff)) / 60000;
    expect(share).toBeGreaterThanOrEqual(least);
    expect(share).toBeLessThanOrEqual(greatest);
  });

  it('indicators and beacons keep theirs: UK MOT manual 1.5, UNECE R65', () => {
    const { lamps } = UK_TODAY;
    keeps(lamps.indicatorRate, lamps.indicatorOn, lamps.indicatorOff);
    keeps(lamps.emergencyRate, lamps.emergencyOn, lamps.emergencyOff);
  });

  it('before September 1969 a level crossing has no amber at all: Commercial Motor, 19 Sep 1969, p. 31', () => {
    expect(UK_1965.levelCrossing.amber).toBeNull();
    expect(UK_TODAY.levelCrossing.amber).not.toBeNull();
  });

  it('red goes to green at once in the USA only', () => {
    expect(PRACTICES.filter((it) => it.junction.redWithAmber === null).map((it) => it.id)).toEqual(['usa-today']);
  });
});

it('every time lies between the limits of its dial, and inside its own range', () => {
  const rules = (value: unknown): TimeRule[] => {
    if (typeof value !== 'object' || value === null) return [];
    return 'usual' in value && 'dial' in value ? [value as TimeRule] : Object.values(value).flatMap(rules);
  };
  const within = (ms: number, [least, greatest]: Span): boolean => ms >= least && ms <= greatest;
  for (const { name, usual, range, dial } of PRACTICES.flatMap(rules)) {
    const ms = anyValue(usual);
    // Zero says that there is none; the dial is for those who want one.
    expect(ms === 0 || within(ms, anyValue(dial)), name).toBe(true);
    expect(range === null || within(ms, published(range)), name).toBe(true);
  }
});

it('practices are found by id', () => {
  expect(PRACTICES.map((practice) => findPractice(practice.id)?.name)).toEqual([
    'United Kingdom, today',
    'United Kingdom, mid-1960s',
    'United States, today',
    'Germany, today',
  ]);
  expect(findPractice('constructor')).toBeNull();
});
