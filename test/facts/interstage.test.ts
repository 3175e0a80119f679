/** The worked interstages of Traffic Advisory Leaflet 1/06, and intergreens given as examples elsewhere. */
import { describe, expect, it } from 'vitest';
import { UK_TODAY } from '../../shared/practice/uk.ts';
import { interstage } from '../../shared/signals/intervals.ts';
import { lines, planOf } from '../signals/plans.ts';
import { published } from './published.ts';

const amber = published(UK_TODAY.junction.amber.usual) / 1000;
const redWithAmber = published(UK_TODAY.junction.redWithAmber?.usual) / 1000;

/** Four phases in two stages, as in the leaflet. */
function crossroads(intergreen: number) {
  const intergreens = Object.fromEntries(
    ['AC', 'AD', 'BC', 'BD', 'CA', 'CB', 'DA', 'DB'].map((pair) => [pair, intergreen]),
  );
  return planOf({ phases: 'ABCD', stages: ['AB', 'CD'], greens: [20, 20], intergreens, amber, redWithAmber });
}

describe('interstage of four phases in two stages (TAL 1/06)', () => {
  it('is amber 3 + red with amber 2 = 5 s', () => {
    const change = interstage(crossroads(5), 0);
    expect(lines(change)).toEqual(['3 AARR amber', '2 RRXX red-with-amber']);
    expect(change.reduce((sum, it) => sum + it.ms, 0)).toBe(5000);
  });

  it('is 6 s with 1 s of all red', () => {
    const change = interstage(crossroads(6), 0);
    expect(lines(change)).toEqual(['3 AARR amber', '1 RRRR clearance', '2 RRXX red-with-amber']);
    expect(change.reduce((sum, it) => sum + it.ms, 0)).toBe(6000);
  });

  it('keeps intergreens of 5 s and 7 s exactly (667/EB/20200 §3.5.5)', () => {
    const plan = planOf({ phases: 'AB', stages: ['A', 'B'], greens: [20, 20], intergreens: { AB: 5, BA: 7 } });
    expect(interstage(plan, 0).reduce((sum, it) => sum + it.ms, 0)).toBe(5000);
    expect(interstage(plan, 1).reduce((sum, it) => sum + it.ms, 0)).toBe(7000);
  });
});
