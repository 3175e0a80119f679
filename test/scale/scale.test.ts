import { describe, expect, test } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import { Scale } from '../../shared/layout/schema.ts';
import { distancesAlong, fromFirst } from '../../shared/scale/distances.ts';
import { ratioOf, SCALES, toModel, toPrototype } from '../../shared/scale/ratios.ts';
import { milesPerHour, modelSpeed, readSpeed } from '../../shared/scale/speeds.ts';
import { edited, smallLayout } from '../layout/small.ts';

describe('scales', () => {
  test('every scale of a layout file has its ratio, from large to small', () => {
    expect([...SCALES.map(({ id }) => id), 'custom'].sort()).toEqual([...Scale.options].sort());
    const ratios = SCALES.map(({ ratio }) => ratio.value);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    for (const { ratio } of SCALES) expect(ratio.source).not.toBe('');
  });

  // Printed in lists of scales, to the digits printed.
  test.each([
    ['1', '32'],
    ['O-UK', '43.5'],
    ['O-NEM', '45'],
    ['O-US', '48'],
    ['S', '64'],
    ['OO', '76.2'],
    ['HO', '87.1'],
    ['TT-3', '101.6'],
    ['TT-120', '120'],
    ['N-UK', '148'],
    ['N', '160'],
    ['Z', '220'],
  ] as const)('%s is 1:%s', (id, printed) => {
    const digits = printed.split('.')[1]?.length ?? 0;
    expect(ratioOf(id).toFixed(digits)).toBe(printed);
  });

  test('a post of 7 ft is 28 mm at 4 mm to the foot', () => {
    expect(toModel(7 * 0.3048, 'OO')).toBeCloseTo(28, 9);
  });

  test('there and back again', () => {
    for (const { id } of SCALES) expect(toPrototype(toModel(123.4, id), id)).toBeCloseTo(123.4, 9);
  });
});

describe('speeds', () => {
  test.each([
    ['30mph', 13.4112],
    ['30 MPH', 13.4112],
    ['50 km/h', 13.8889],
    ['36kmh', 10],
    ['13.4 m/s', 13.4],
    ['40 ft/s', 12.192],
  ])('%s is %f m/s', (text, speed) => {
    expect(readSpeed(text)).toBeCloseTo(speed, 4);
  });

  test.each(['', '30', 'mph', '0 mph', '-30 mph', '30 knots', '1e9 mph', '30 mph now', '3,5 m/s'])(
    '%j is no speed',
    (text) => {
      expect(readSpeed(text)).toBeNull();
    },
  );

  test('30 mph is 176 mm a second at 1:76.2, and says 30 again', () => {
    const speed = readSpeed('30 mph') ?? 0;
    expect(modelSpeed(speed, 'OO')).toBeCloseTo(176, 9);
    expect(milesPerHour(speed)).toBeCloseTo(30, 9);
  });
});

describe('distances between sites', () => {
  const layoutWith = (edits: Record<string, unknown>) => {
    const { layout } = parseLayout(JSON.stringify(edited(smallLayout(), edits)));
    if (layout === null) throw new Error('the small layout does not parse');
    return layout;
  };

  test('are straight lines on the baseboard, at the scale', () => {
    const layout = layoutWith({ 'sites.0.place': { x: 100, y: 100 }, 'sites.1.place': { x: 400, y: 500 } });
    // 500 mm at 1:76.2.
    expect(distancesAlong(layout, ['cross', 'zebra'])).toEqual({ metres: [0, 38.1], findings: [] });
  });

  test('add up from leg to leg', () => {
    expect(fromFirst([1000, 500], 'N').map((metres) => metres.toFixed(3))).toEqual(['0.000', '160.000', '240.000']);
  });

  test('a site without a place, and one that is not there', () => {
    const layout = layoutWith({ 'sites.0.place': { x: 100, y: 100 } });
    const { metres, findings } = distancesAlong(layout, ['cross', 'zebra', 'quay']);
    expect(metres).toBeNull();
    expect(findings.map(({ code, path }) => [code, path])).toEqual([
      ['no-place', 'sites[1].place'],
      ['unknown-site', 'sites'],
    ]);
    expect(findings[1]?.cure).toContain('cross, zebra');
  });
});
