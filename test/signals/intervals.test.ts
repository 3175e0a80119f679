/** Whole phase tables of junctions whose tables are known. */
import { describe, expect, it } from 'vitest';
import { planIntervals } from '../../shared/signals/intervals.ts';
import { lines, type PlanWords, planOf } from './plans.ts';

function table(words: PlanWords): string[] {
  return lines(planIntervals(planOf(words)));
}

const TWO = { phases: 'AB', stages: ['A', 'B'], greens: [18, 12] };

describe('two phases in two stages', () => {
  it('need six intervals with an intergreen of 5 s', () => {
    expect(table({ ...TWO, intergreens: { AB: 5, BA: 5 } })).toEqual([
      '18 GR stage',
      '3 AR amber',
      '2 RX red-with-amber',
      '12 RG stage',
      '3 RA amber',
      '2 XR red-with-amber',
    ]);
  });

  it('have the familiar eight with a second of all red', () => {
    expect(table({ ...TWO, intergreens: { AB: 6, BA: 6 } })).toEqual([
      '18 GR stage',
      '3 AR amber',
      '1 RR clearance',
      '2 RX red-with-amber',
      '12 RG stage',
      '3 RA amber',
      '1 RR clearance',
      '2 XR red-with-amber',
    ]);
  });

  it('go straight from red to green where there is no red with amber', () => {
    expect(table({ ...TWO, redWithAmber: 0, amber: 4, intergreens: { AB: 5.5, BA: 4 } })).toEqual([
      '18 GR stage',
      '4 AR amber',
      '1.5 RR clearance',
      '12 RG stage',
      '4 RA amber',
    ]);
  });
});

describe('phases that run on', () => {
  it('stay green while one that shares their stage is cut off early, and come in late', () => {
    const early = { phases: 'ABC', stages: ['AB', 'A', 'C'], greens: [15, 5, 10] };
    expect(table({ ...early, intergreens: { AC: 5, BC: 5, CA: 5, CB: 5 } })).toEqual([
      '15 GGR stage',
      '3 GAR amber',
      '5 GRR stage',
      '3 ARR amber',
      '2 RRX red-with-amber',
      '10 RRG stage',
      '3 RRA amber',
      '2 XXR red-with-amber',
    ]);
  });

  it('light a filter arrow without amber, and put it out without amber', () => {
    const arrow = { phases: 'AFB', stages: ['A', 'AF', 'B'], greens: [10, 6, 12], arrows: 'F' };
    expect(table({ ...arrow, intergreens: { AB: 5, BA: 5, FB: 5, BF: 5 } })).toEqual([
      '10 GRR stage',
      '6 GGR stage',
      '3 ARR amber',
      '2 RRX red-with-amber',
      '12 RRG stage',
      '3 RRA amber',
      '2 XRR red-with-amber',
    ]);
  });
});

describe('different intergreens in one change', () => {
  const three = { phases: 'ABC', stages: ['A', 'BC'], greens: [20, 15] };

  it('let each phase go as soon as it may', () => {
    expect(table({ ...three, intergreens: { AB: 5, AC: 8, BA: 5, CA: 5 } })).toEqual([
      '20 GRR stage',
      '3 ARR amber',
      '2 RXR red-with-amber',
      '1 RGR clearance',
      '2 RGX red-with-amber',
      '15 RGG stage',
      '3 RAA amber',
      '2 XRR red-with-amber',
    ]);
  });

  it('cut red with amber in parts where two of them overlap', () => {
    expect(table({ ...three, intergreens: { AB: 5, AC: 6, BA: 5, CA: 5 } }).slice(0, 6)).toEqual([
      '20 GRR stage',
      '3 ARR amber',
      '1 RXR part',
      '1 RXX part',
      '1 RGX part',
      '15 RGG stage',
    ]);
  });

  it('let the longest of several leaving phases decide', () => {
    const joint = { phases: 'ABC', stages: ['AB', 'C'], greens: [20, 15] };
    expect(table({ ...joint, intergreens: { AC: 5, BC: 9, CA: 5, CB: 5 } }).slice(0, 4)).toEqual([
      '20 GGR stage',
      '3 AAR amber',
      '4 RRR clearance',
      '2 RRX red-with-amber',
    ]);
  });
});

it('a single stage lasts for ever without a change', () => {
  expect(table({ phases: 'A', stages: ['A'], greens: [10], intergreens: {} })).toEqual(['10 G stage']);
});

it('two stages with the same phases follow each other without a change', () => {
  expect(table({ phases: 'A', stages: ['A', 'A'], greens: [10, 5], intergreens: {} })).toEqual([
    '10 G stage',
    '5 G stage',
  ]);
});
