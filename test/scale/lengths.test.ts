/** Lengths there and back, and what comes nearest. */
import { describe, expect, test } from 'vitest';
import { feetText, metricText, readLength } from '../../shared/scale/lengths.ts';
import { LIGHTS, lightsFor, nearestLight } from '../../shared/scale/lights.ts';
import { toModel } from '../../shared/scale/ratios.ts';
import { SIZES } from '../../shared/scale/sizes.ts';

describe('reading', () => {
  // Exact by the international yard and pound agreement of 1959: 1 ft = 0.3048 m, 1 in = 25.4 mm.
  test.each([
    ['7 ft', 2.1336],
    ['7ft', 2.1336],
    ['7\'6"', 2.286],
    ['7 ft 6 in', 2.286],
    ['7 feet 6 1/2 inches', 2.2987],
    ['8¼ in', 0.20955],
    ['8 1/4"', 0.20955],
    ['1/4 in', 0.00635],
    ['½ in.', 0.0127],
    ['2.1 m', 2.1],
    ['2m 10cm', 2.1],
    ['28mm', 0.028],
    ['1 yd', 0.9144],
  ])('%s', (text, metres) => {
    expect(readLength(text)).toBeCloseTo(metres, 9);
  });

  test.each(['', '7', 'ft', '0 m', '-7 ft', '7 furlongs', '1/0 in', '7 ft ft', '2,1 m', '1 m 1 m 1 m 1 m', '7 ft 6'])(
    '%j is no length',
    (text) => {
      expect(readLength(text)).toBeNull();
    },
  );
});

describe('saying', () => {
  test.each([
    [2.1336, '7 ft', '2.13 m'],
    [2.286, '7 ft 6 in', '2.29 m'],
    [0.20955, '8 ¼ in', '210 mm'],
    [0.3048, '1 ft', '305 mm'],
    [0.028, '1 in', '28 mm'],
    [0.002, '⅛ in', '2 mm'],
    [0.0127, '½ in', '12.7 mm'],
    [0.0004, '0.016 in', '0.4 mm'],
    [0.9999, '3 ft 3 ¼ in', '1 m'],
  ])('%f m is %s and %s', (metres, feet, metric) => {
    expect(feetText(metres)).toBe(feet);
    expect(metricText(metres)).toBe(metric);
  });

  test('what is said is read as the same, to a quarter of an inch', () => {
    for (let metres = 0.03; metres < 12; metres *= 1.13) {
      expect(Math.abs((readLength(feetText(metres)) ?? 0) - metres)).toBeLessThanOrEqual(0.0254 / 8 + 1e-12);
      expect(Math.abs((readLength(metricText(metres)) ?? 0) / metres - 1)).toBeLessThan(0.005);
    }
  });
});

describe('lights', () => {
  test('an 8 in lens in OO is 2.7 mm: a 3 mm LED, or 2 mm of fibre', () => {
    const mm = toModel(8 * 0.0254, 'OO');
    expect(mm).toBeCloseTo(2.667, 3);
    const { led, fibre } = lightsFor(mm);
    expect(led?.light.name).toBe('3 mm LED');
    expect(led?.difference).toBeCloseTo(0.333, 3);
    expect(fibre?.light.name).toBe('2 mm fibre');
  });

  test('in N a chip LED comes nearest, and of two equally near the smaller one', () => {
    expect(lightsFor(toModel(0.2, 'N')).led?.light.name).toBe('0805 chip LED');
    expect(nearestLight(2.5, ['round'])?.light.name).toBe('2 mm LED');
    expect(nearestLight(1, [])).toBeNull();
  });

  test('sizes are above zero and have a source', () => {
    for (const { size } of LIGHTS) {
      expect(size.value).toBeGreaterThan(0);
      expect(size.source).not.toBe('');
    }
  });
});

describe('sizes of the street', () => {
  const sizes = SIZES.flatMap((group) => group.sizes.map((size) => ({ where: `${group.id} ${size.id}`, ...size })));
  const of = (where: string) => sizes.find((size) => size.where === where);

  test('are named once and have a source; what has a range lies within it', () => {
    expect(new Set(sizes.map(({ where }) => where)).size).toBe(sizes.length);
    for (const { usual, range } of sizes) {
      expect(usual.source).not.toBe('');
      expect(usual.value).toBeGreaterThan(0);
      if (range === null) expect(usual.confidence).toBe('memory');
      else {
        expect(usual.value).toBeGreaterThanOrEqual(range.value[0]);
        expect(usual.value).toBeLessThanOrEqual(range.value[1]);
      }
    }
  });

  // Hong Kong road traffic regulations 1967 reg. 11(2)(c) to (e) and (3)(b).
  test('old signals: lens 8 to 8 1/4 in, green centre 7 ft, at most 14 in between lenses', () => {
    expect(of('signal-old lens')?.range?.value).toEqual([expect.closeTo(0.2032, 9), expect.closeTo(0.20955, 9)]);
    expect(of('signal-old green-centre')?.usual.value).toBeCloseTo(2.1336, 9);
    expect(of('signal-old pitch')?.usual.value).toBeCloseTo(0.3556, 9);
    expect(of('level-crossing apart')?.range?.value).toEqual([expect.closeTo(0.5334, 9), expect.closeTo(0.6858, 9)]);
  });

  // SI 1997/2400 Sch. 1 Pt I 1(1)(b), (d) and 2.
  test('beacons: globe 275 to 335 mm, its lowest part 2.1 to 3.1 m up, bands 275 to 335 mm', () => {
    expect(of('zebra globe')?.range?.value).toEqual([0.275, 0.335]);
    expect(of('zebra globe-bottom')?.range?.value).toEqual([2.1, 3.1]);
    expect(of('zebra band')?.range?.value).toEqual([0.275, 0.335]);
    expect(of('zebra lowest-band')?.range?.value).toEqual([0, 1]);
  });

  test('a post of 7 ft is 28 mm at 4 mm to the foot (common practice, no source)', () => {
    expect(toModel(of('signal-old green-centre')?.usual.value ?? 0, 'OO')).toBeCloseTo(28, 9);
  });
});
