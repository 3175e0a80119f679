/** Change and clearance intervals of the United States against worked examples in print. */
import { describe, expect, it } from 'vitest';
import {
  marylandYellow,
  redClearance,
  walkTimes,
  walkTimes2003,
  yellowChange,
} from '../../shared/practice/formulas/usa.ts';

describe('yellow change interval, Y = t + 1.47 V / (2 a + 64.4 g) (MassDOT memorandum, 8 January 2013, equation 1)', () => {
  it('is 3.93 s at 45 mph, 4 % uphill (teaching example, printed to hundredths)', () => {
    expect(yellowChange({ speed: 45, grade: 0.04 })).toBeCloseTo(3.93, 2);
  });

  it('is 3.2 s at 30 mph on the level (table 4D-102 of California, printed to tenths)', () => {
    expect(yellowChange({ speed: 30 })).toBeCloseTo(3.2, 1);
  });

  it('is 4.3 s at 45 mph and 5.0 s at 55 mph on the level (a table of design values, printed to tenths)', () => {
    expect(yellowChange({ speed: 45 })).toBeCloseTo(4.3, 1);
    expect(yellowChange({ speed: 55 })).toBeCloseTo(5.0, 1);
  });

  it('is never below 3 s (the same memorandum)', () => {
    expect(yellowChange({ speed: 15 })).toBe(3);
  });

  it('has no value for a street that is none', () => {
    expect(yellowChange({ speed: 0 })).toBeNull();
    expect(yellowChange({ speed: Number.NaN })).toBeNull();
    expect(yellowChange({ speed: 30, grade: -0.4 })).toBeNull();
  });
});

describe('the form of Maryland, Y = 1.0 + 0.733 S / (D + 0.32 G) (COMAR 11.04.14.03)', () => {
  it('goes up to the next half second (C.1)', () => {
    expect(marylandYellow({ speed: 45 })).toBe(4.5);
    expect(marylandYellow({ speed: 45, grade: 0.04 })).toBe(4);
  });

  it('is at least 3 s and at most 6 s (C.2, C.3)', () => {
    expect(marylandYellow({ speed: 20 })).toBe(3);
    expect(marylandYellow({ speed: 75 })).toBe(6);
  });

  it('agrees with the other form: never less than it, and less than half a second more', () => {
    for (const speed of [30, 35, 40, 45, 50, 55]) {
      for (const grade of [-0.04, 0, 0.04]) {
        const more = (marylandYellow({ speed, grade }) ?? 0) - (yellowChange({ speed, grade }) ?? 0);
        // 0.733 against 1.47 / 2 and 0.32 against 0.322: a hundredth or two below, before rounding.
        expect(more).toBeGreaterThan(-0.02);
        expect(more).toBeLessThan(0.5);
      }
    }
  });

  it('has no value for a street that is none', () => {
    expect(marylandYellow({ speed: -1 })).toBeNull();
  });
});

describe('red clearance, (W + L) / 1.47 V', () => {
  it('is 1.477 s for 60 ft, a vehicle of 16 ft and 35 mph (the teaching example of 3.93 s)', () => {
    expect(redClearance({ width: 60, vehicle: 16, speed: 35 })).toBeCloseTo(1.477, 3);
  });

  it('has no value for a street that is none', () => {
    expect(redClearance({ width: -1, vehicle: 16, speed: 35 })).toBeNull();
    expect(redClearance({ width: 60, vehicle: 16, speed: 0 })).toBeNull();
  });
});

describe('walk and clearance (MUTCD §4E.06; both from a discussion of it, 130 ft with the button 60 ft back)', () => {
  it('are 26 + 38 = 64 s by the edition of 2009', () => {
    expect(walkTimes({ crossing: 130, setBack: 60 })).toEqual({ walk: 26, clearance: 38, total: 64 });
  });

  it('were 7 + 33 = 40 s by the edition of 2003', () => {
    expect(walkTimes2003({ crossing: 130 })).toEqual({ walk: 7, clearance: 33, total: 40 });
  });

  it('walk is never below 7 s', () => {
    expect(walkTimes({ crossing: 35 })).toEqual({ walk: 7, clearance: 10, total: 17 });
  });

  it('has no value for a street that is none', () => {
    expect(walkTimes({ crossing: Number.POSITIVE_INFINITY })).toBeNull();
    expect(walkTimes2003({ crossing: -3 })).toBeNull();
  });
});
