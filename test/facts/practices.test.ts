/** Every published value of the practices, against the source named beside it. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../shared/practice/practice.ts';
import { findPractice, PRACTICES } from '../../shared/practice/practices.ts';
import { UK_1965, UK_TODAY, UK_TOLERANCE } from '../../shared/practice/uk.ts';
import { USA_TODAY } from '../../shared/practice/usa.ts';

describe('junctions in the UK today', () => {
  const { junction } = UK_TODAY;

  it('go red, red with amber, green, amber: Traffic Signs Regulations 1994, reg. 30(4)', () => {
    expect(junction.order.value).toEqual(['red', 'red-with-amber', 'green', 'amber']);
  });

  it('have 3 s of amber and 2 s of red with amber: Traffic Advisory Leaflet 1/06 part 2', () => {
    expect(junction.amber.usual.value).toBe(3000);
    expect(junction.redWithAmber?.usual.value).toBe(2000);
  });

  it('hold these within 250 ms: Traffic Advisory Leaflet 1/06 part 4, diagram 1', () => {
    expect(UK_TOLERANCE.value).toBe(250);
    expect(junction.amber.range?.value).toEqual([2750, 3250]);
    expect(junction.redWithAmber?.range?.value).toEqual([1750, 2250]);
  });

  it('have greens of at most 255 s and intergreens of at most 199 s: 667/HB/32900 p. 72-73, 88-89', () => {
    expect(junction.green.dial.value[1]).toBe(255000);
    expect(junction.allRed.dial.value[1]).toBe(199000);
  });
});

describe('zebra beacons in the UK', () => {
  it('are lit for 750 ms and dark for 750 ms, 40 a minute: BS 8442:2015 clause 12', () => {
    const { on, off } = UK_TODAY.zebra;
    expect([on.usual.value, off.usual.value]).toEqual([750, 750]);
    expect(60000 / (on.usual.value + off.usual.value)).toBe(40);
  });

  it('stood there in the mid-1960s: Traffic Signs Committee report 1963, ¶252, 255', () => {
    expect(UK_1965.zebra.exists.value).toBe(true);
    expect(UK_1965.zebra.exists.confidence).toBe('seen');
  });
});

describe('the USA', () => {
  const { junction, zebra } = USA_TODAY;

  it('shows yellow for 3 to 6 s and clears for at most 6 s: MUTCD, quoted by FDOT TEM 3.6.1', () => {
    expect(junction.amber.range?.value).toEqual([3000, 6000]);
    expect(junction.allRed.range?.value[1]).toBe(6000);
    expect(junction.amber.usual.value).toBeGreaterThanOrEqual(3000);
  });

  it('rounds the worked clearance of (60 + 16) / (1.47 × 35) = 1.477 s', () => {
    const worked = ((60 + 16) / (1.47 * 35)) * 1000;
    expect(Math.round(worked)).toBe(1477);
    expect(junction.allRed.usual.value).toBe(Math.round(worked / 100) * 100);
  });

  it('flashes 50 to 60 times a minute, lit for half to two thirds: MUTCD 11th ed. §4G.01 ¶01-02', () => {
    const [on, off] = [zebra.on.usual.value, zebra.off.usual.value];
    expect(60000 / (on + off)).toBeGreaterThanOrEqual(50);
    expect(60000 / (on + off)).toBeLessThanOrEqual(60);
    expect(on / (on + off)).toBeGreaterThanOrEqual(1 / 2);
    expect(on / (on + off)).toBeLessThanOrEqual(2 / 3);
  });

  it('flashes after a conflict: MUTCD 11th ed. §4G.01 ¶05-06', () => {
    expect(junction.fault.value).toBe('flashing-red');
  });
});

describe('sources', () => {
  /** Every fact anywhere in a practice. */
  function facts(value: unknown): Fact<unknown>[] {
    if (typeof value !== 'object' || value === null) return [];
    if ('source' in value && 'confidence' in value && 'value' in value) return [value as Fact<unknown>];
    return Object.values(value).flatMap(facts);
  }

  /** Numbers of a practice that have no source. */
  function bare(value: unknown): unknown[] {
    if (typeof value === 'number') return [value];
    if (typeof value !== 'object' || value === null || facts(value)[0] === value) return [];
    return Object.values(value).flatMap(bare);
  }

  it('stand beside every value', () => {
    for (const practice of PRACTICES) {
      expect(bare(practice)).toEqual([]);
      for (const fact of facts(practice)) expect(fact.source.length).toBeGreaterThan(5);
    }
  });

  it('say so where a value is from memory or has no source', () => {
    for (const fact of PRACTICES.flatMap(facts)) {
      if (fact.confidence === 'memory') expect(fact.source).toMatch(/from memory/);
      if (fact.confidence === 'common') expect(fact.source).toMatch(/common practice, no source/);
      if (fact.confidence === 'assumed') expect(fact.source).toMatch(/assumed as today|as today/);
    }
  });

  it('are honest about the 1960s: amber was not found, so nothing is checked against it', () => {
    expect(UK_1965.junction.amber.usual).toMatchObject({ value: 3000, confidence: 'assumed' });
    expect(UK_1965.junction.amber.range).toBeNull();
  });
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
