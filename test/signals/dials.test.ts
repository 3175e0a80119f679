/** Which dial times what, and how far each may be turned. */
import { describe, expect, it } from 'vitest';
import { UK_TODAY } from '../../shared/practice/uk.ts';
import { USA_TODAY } from '../../shared/practice/usa.ts';
import { planDials } from '../../shared/signals/dials.ts';
import { planIntervals } from '../../shared/signals/intervals.ts';
import { leastGreens } from '../../shared/signals/runs.ts';
import { type PlanWords, planOf } from './plans.ts';

/** `green-1 18 (7..255)` for each dial, seconds; and the dial of each interval. */
function dialsOf(words: PlanWords, practice = UK_TODAY) {
  const plan = planOf(words);
  const { dials, of } = planDials(plan, planIntervals(plan), practice);
  return {
    dials: dials.map(({ id, value, min, max }) => `${id} ${value / 1000} (${min / 1000}..${max / 1000})`),
    of: of.map((index) => dials[index]?.id),
  };
}

const TWO = { phases: 'AB', stages: ['A', 'B'], greens: [18, 12] };

describe('dials of two phases in two stages', () => {
  it('are five with an all red: one for every time that people speak of', () => {
    const { dials, of } = dialsOf({ ...TWO, intergreens: { AB: 6, BA: 6 } });
    expect(dials).toEqual([
      'green-1 18 (7..255)',
      'green-2 12 (7..255)',
      'amber 3 (3..10)',
      'all-red 1 (1..199)',
      'red-with-amber 2 (2..10)',
    ]);
    expect(of).toEqual([
      'green-1',
      'amber',
      'all-red',
      'red-with-amber',
      'green-2',
      'amber',
      'all-red',
      'red-with-amber',
    ]);
  });

  it('give each change its own all red when they differ', () => {
    const { dials } = dialsOf({ ...TWO, intergreens: { AB: 6, BA: 7.5 } });
    expect(dials.slice(3)).toEqual([
      'all-red-to-2 1 (1..199)',
      'red-with-amber 2 (2..10)',
      'all-red-to-1 2.5 (2.5..199)',
    ]);
  });

  it('have no red with amber in the USA, and a clearance of at most 6 s', () => {
    const words = { ...TWO, redWithAmber: 0, amber: 4, intergreens: { AB: 5.5, BA: 5.5 } };
    expect(dialsOf(words, USA_TODAY).dials.slice(2)).toEqual(['amber 4 (4..10)', 'all-red 1.5 (1.5..6)']);
  });
});

describe('a change that cannot be nudged piece by piece', () => {
  it('has dials that stand still, so that amber and red with amber stay whole elsewhere', () => {
    const words = { phases: 'ABC', stages: ['A', 'BC'], greens: [20, 15], intergreens: { AB: 5, AC: 6, BA: 5, CA: 5 } };
    const { dials, of } = dialsOf(words);
    expect(of).toEqual([
      'green-1',
      'amber',
      'fixed-1000',
      'fixed-1000',
      'fixed-1000',
      'green-2',
      'amber',
      'red-with-amber',
    ]);
    expect(dials[3]).toBe('fixed-1000 1 (1..1)');
  });

  it('tells two clearances of one change apart', () => {
    const words = {
      phases: 'ABC',
      stages: ['A', 'BC'],
      greens: [20, 15],
      intergreens: { AB: 6, AC: 12, BA: 5, CA: 5 },
    };
    expect(dialsOf(words).of).toEqual([
      'green-1',
      'amber',
      'all-red-to-2',
      'red-with-amber',
      'all-red-to-2-2',
      'red-with-amber',
      'green-2',
      'amber',
      'red-with-amber',
    ]);
  });
});

describe('the least green of a stage', () => {
  it('is the minimum of its phases', () => {
    const plan = planOf({ ...TWO, intergreens: { AB: 5, BA: 5 }, minGreen: 9 });
    expect(leastGreens(plan, 1000)).toEqual([9000, 9000]);
  });

  it('is small where a phase is green before and after', () => {
    const early = { phases: 'ABC', stages: ['AB', 'A', 'C'], greens: [15, 5, 10] };
    const plan = planOf({ ...early, intergreens: { AC: 5, BC: 5, CA: 5, CB: 5 } });
    expect(leastGreens(plan, 1000)).toEqual([7000, 1000, 7000]);
  });

  it('rises where a short stage would break the intergreen between its neighbours', () => {
    // From A to C 15 s are needed; the two changes around stage 2 take 10.
    const three = { phases: 'ABC', stages: ['A', 'B', 'C'], greens: [10, 10, 10], minGreen: 2 };
    const plan = planOf({ ...three, intergreens: { AB: 5, BC: 5, CA: 5, AC: 15, BA: 5, CB: 5 } });
    expect(leastGreens(plan, 1000)).toEqual([2000, 5000, 2000]);
  });
});

describe('what holds a dial up', () => {
  const because = (words: PlanWords): (string | undefined)[] => {
    const plan = planOf(words);
    return planDials(plan, planIntervals(plan), UK_TODAY).dials.map(({ id, leastBecause }) => `${id}: ${leastBecause}`);
  };

  it('is said with it: a minimum green, an intergreen, the change that it is part of', () => {
    const three = { phases: 'ABC', stages: ['A', 'B', 'C'], greens: [10, 10, 10], minGreen: 2 };
    const told = because({ ...three, intergreens: { AB: 5, BC: 5, CA: 5, AC: 15, BA: 5, CB: 5 } });
    const change = 'Intergreens and minimum greens of the file are made of it; shorter, and one of them would break.';
    expect(told).toEqual([
      'green-1: A needs its minimum green of 2 s.',
      'green-2: The intergreen of 15 s from A to C runs through this stage.',
      'green-3: C needs its minimum green of 2 s.',
      `amber: ${change}`,
      `red-with-amber: ${change}`,
    ]);
  });
});
