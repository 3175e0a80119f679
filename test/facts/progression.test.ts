/** Offsets and through bands against published worked examples, each with all its inputs. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOOT, milesPerHour } from '../../shared/scale/speeds.ts';
import { bandCapacity, bandsOf, GOOD_EFFICIENCY } from '../../shared/signals/progression/bands.ts';
import { linksOf } from '../../shared/signals/progression/links.ts';
import { searchOffsets } from '../../shared/signals/progression/search.ts';
import type { Street } from '../../shared/signals/progression/street.ts';

/** Junctions so many feet from the first, all with the same green of `green` seconds. */
function street(feet: readonly number[], feetASecond: number, cycle: number, green: number): Street {
  const window = { start: 0, length: green };
  return {
    name: 'Example',
    cycle,
    speed: { out: feetASecond * FOOT, back: feetASecond * FOOT },
    stops: feet.map((distance, index) => ({
      id: String(index),
      name: `junction ${index}`,
      distance: distance * FOOT,
      out: window,
      back: window,
    })),
  };
}

describe('G1, course notes, example 1: 1,400 ft apart, 40 ft/s, cycle 60 s, 50-50 splits', () => {
  const example = street([0, 1400], 40, 60, 30);

  it('the offset for progression from A to B is 35 s', () => {
    expect(searchOffsets(example, { weights: { out: 1, back: 0 } }).offsets).toEqual([0, 35]);
  });

  it('the band is 30 s forward; reverse it is 10 s less', () => {
    const { out, back } = bandsOf(example, [0, 35]);
    expect([out.width, back.width]).toEqual([30, 30 - 10]);
  });

  it('with both directions worth the same the 50 s are shared', () => {
    const { out, back } = searchOffsets(example);
    expect([out.width, back.width]).toEqual([25, 25]);
  });
});

describe('G2, course notes: 3,000 ft in 60 s, cycle 60 s', () => {
  it('is 50 ft/s, 34.01 mph (with 1.47 ft/s for a mile an hour)', () => {
    expect(3000 / 60).toBe(50);
    expect(50 / 1.47).toBeCloseTo(34.01, 2);
    // Exactly it is 34.09: the notes round the factor.
    expect(milesPerHour(50 * FOOT)).toBeCloseTo(34.09, 2);
  });

  it('its bands of 30 s and 12 s, headway 2.0 s, carry 900 and 360 vehicles an hour and lane', () => {
    expect([bandCapacity(30, 60), bandCapacity(12, 60)]).toEqual([900, 360]);
  });

  it('textbook problem 26-7: two junctions 3,000 ft apart, 50-50, both at once: band 30 s, efficiency 50 %', () => {
    const { out, back } = bandsOf(street([0, 3000], 50, 60, 30), [0, 0]);
    expect(out).toEqual({ start: 0, width: 30, efficiency: 0.5 });
    expect(back).toEqual(out);
  });

  it('the same notes: 1,500 ft at 40 ft/s has an ideal offset of 37.5 s', () => {
    expect(linksOf(street([0, 1500], 40, 60, 30), [0, 37.5], 'out')).toEqual([
      { from: '0', to: '1', offset: 37.5, ideal: 37.5, late: 0 },
    ]);
  });
});

describe('G3, NPTEL 105101008, lecture 38: band 17 s, cycle 60 s', () => {
  it('has an efficiency of 28.3 % (17/60), below the good 40 to 50 %', () => {
    // Greens of 17 s in step with the traffic.
    const { out } = bandsOf(street([0, 1200], 40, 60, 17), [0, 30]);
    expect((out.efficiency * 100).toFixed(1)).toBe('28.3');
    expect(GOOD_EFFICIENCY.value).toEqual([0.4, 0.5]);
    expect(out.efficiency).toBeLessThan(0.4);
  });

  it('carries 510 vehicles an hour and lane at a headway of 2.0 s', () => {
    expect(bandCapacity(17, 60, 1, 2)).toBeCloseTo(510, 9);
  });
});

describe('identity of the same lecture: t(out) + t(back) = n C for each link of a two-way street', () => {
  it('holds for any offsets, distances and speeds', () => {
    const stop = fc.record({ gap: fc.integer({ min: 50, max: 3000 }), offset: fc.integer({ min: 0, max: 899 }) });
    fc.assert(
      fc.property(
        fc.array(stop, { minLength: 2, maxLength: 6 }),
        fc.integer({ min: 20, max: 60 }),
        fc.constantFrom(40, 60, 75, 90),
        (stops, speed, cycle) => {
          let sum = 0;
          const feet = stops.map(({ gap }) => {
            sum += gap;
            return sum;
          });
          const offsets = stops.map(({ offset }) => offset / 10);
          const example = street(feet, speed, cycle, cycle / 2);
          const [there, returning] = [linksOf(example, offsets, 'out'), linksOf(example, offsets, 'back').reverse()];
          expect(there.map(({ from, to }) => `${to}-${from}`)).toEqual(
            returning.map(({ from, to }) => `${from}-${to}`),
          );
          there.forEach((link, index) => {
            const both = link.offset + (returning[index]?.offset ?? 0);
            expect(both / cycle).toBeCloseTo(Math.round(both / cycle), 9);
          });
        },
      ),
      { numRuns: 100 },
    );
  });

  it('G2 as an example of two cycles: 60 s there, 60 s back, cycle 60 s', () => {
    const example = street([0, 3000], 50, 60, 30);
    const [there] = linksOf(example, [0, 0], 'out');
    const [returning] = linksOf(example, [0, 0], 'back');
    expect((there?.offset ?? 0) + (returning?.offset ?? 0)).toBe(2 * 60);
  });
});
