/** Intergreens of the United Kingdom against worked ones; of Germany, unchecked, by hand. */
import { describe, expect, it } from 'vitest';
import { CLEARING, ENTERING_SPEED, intergreen as german, yellowFor } from '../../shared/practice/formulas/germany.ts';
import { allRedOf, intergreen } from '../../shared/practice/formulas/uk.ts';
import { UK_TODAY } from '../../shared/practice/uk.ts';
import { published } from './published.ts';

describe('intergreen of the UK: amber + all red + red with amber (Traffic Advisory Leaflet 1/06)', () => {
  const times = {
    amber: published(UK_TODAY.junction.amber.usual),
    redWithAmber: published(UK_TODAY.junction.redWithAmber?.usual),
  };

  it('is 5 s without all red (the worked interstage)', () => {
    expect(intergreen(times)).toBe(5000);
  });

  it('is 6 s with 1 s of all red (the worked interstage of four phases in two stages)', () => {
    expect(intergreen({ ...times, allRed: 1000 })).toBe(6000);
  });

  it('leaves no all red of 5 s and 2 s of 7 s, the examples of 667/EB/20200 §3.5.5', () => {
    expect(allRedOf(5000, times)).toBe(0);
    expect(allRedOf(7000, times)).toBe(2000);
    expect(allRedOf(4000, times)).toBeNull();
  });
});

describe('yellow of Germany (VwV-StVO on §37, IX)', () => {
  it('is 3 s at 50 km/h, 4 s at 60 and 5 s at 70', () => {
    expect([50, 60, 70].map((limit) => published(yellowFor(limit)))).toEqual([3, 4, 5]);
    expect(published(yellowFor(30))).toBe(3);
  });

  it('has no value above 70 km/h', () => {
    expect(yellowFor(80)).toBeNull();
    expect(yellowFor(0)).toBeNull();
  });
});

describe('what the German intergreen is made of (FGSV 1992 and planning tables, quoted)', () => {
  it('clears at 10 m/s straight on, 7 m/s turning, 4 m/s by cycle', () => {
    expect([CLEARING.straight, CLEARING.turning, CLEARING.cycle].map((it) => published(it).speed)).toEqual([10, 7, 4]);
  });

  it('goes over the line up to 3 s after green straight on, 2 s turning, 1 s by cycle', () => {
    expect([CLEARING.straight, CLEARING.turning, CLEARING.cycle].map((it) => published(it).crossing)).toEqual([
      3, 2, 1,
    ]);
  });

  it('adds 6 m for a car and nothing for a cycle, and enters at 40 km/h', () => {
    expect([CLEARING.straight, CLEARING.turning, CLEARING.cycle].map((it) => published(it).length)).toEqual([6, 6, 0]);
    expect(published(ENTERING_SPEED) * 3.6).toBeCloseTo(40, 9);
  });
});

/**
 * tz = tü + tr − te. No worked example with its inputs and result was found in
 * print: these are our own sums, which show only that the formula is computed as written.
 */
describe('German intergreen, unchecked', () => {
  it('adds up for a way of 20 m against an entry of 10 m: 3 + 2.6 − 0.9 = 4.7, so 5 s', () => {
    const result = german({ clearing: 'straight', way: 20, entry: 10 });
    expect(result).toMatchObject({ crossing: 3, clearing: 2.6, seconds: 5 });
    expect(result?.entering).toBeCloseTo(0.9, 9);
    expect(result?.exact).toBeCloseTo(4.7, 9);
  });

  it('keeps whole seconds whole: 3 + 2 − 0 = 5, so 5 s', () => {
    expect(german({ clearing: 'straight', way: 14, entry: 0 })?.seconds).toBe(5);
  });

  it('does not fall below zero for a very long entry, and has no value for a way below zero', () => {
    expect(german({ clearing: 'cycle', way: 0, entry: 100 })).toMatchObject({ exact: 0, seconds: 0 });
    expect(german({ clearing: 'cycle', way: -1, entry: 0 })).toBeNull();
  });
});
