import { describe, expect, test } from 'vitest';
import { streetOf } from '../../shared/drawings/street.ts';
import { timeDistanceChart } from '../../shared/drawings/time-distance.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { bandsOf } from '../../shared/signals/progression/bands.ts';
import type { Street } from '../../shared/signals/progression/street.ts';
import { timeDistance } from '../../shared/signals/progression/time-distance.ts';
import { penmarrow } from './sites.ts';
import { byClass, byName, type Node, num, parseXml, written } from './xml.ts';

/** Three junctions of a street, 10 m/s, half green; 20 s and 30 s from one to the next. */
const green = { start: 0, length: 30 };
const street: Street = {
  name: 'Esplanade',
  cycle: 60,
  speed: { out: 10, back: 10 },
  stops: [
    { id: 'pier', name: 'Pier Approach', distance: 0, out: green, back: green },
    { id: 'bandstand', name: 'Bandstand', distance: 200, out: green, back: green },
    { id: 'slip', name: 'Lifeboat Slip', distance: 500, out: green, back: green },
  ],
};
const chart = (offsets: readonly number[]): Node =>
  parseXml(timeDistanceChart(timeDistance(street, { ...bandsOf(street, offsets), offsets })));

describe('the chart of a street', () => {
  const svg = chart([0, 20, 50]);
  const [first, second, third] = byClass(svg, 'aw-stop');
  const lineOf = (stop: Node | undefined): Node => byClass(stop as Node, 'aw-red-line')[0] as Node;
  const [left, right] = [num(lineOf(first), 'x1'), num(lineOf(first), 'x2')];
  const x = (seconds: number): number => left + (seconds / 120) * (right - left);

  test('has its junctions at their distances, the first at the foot', () => {
    const [a, b, c] = [first, second, third].map((stop) => num(lineOf(stop), 'y1')) as [number, number, number];
    expect((a - b) / (a - c)).toBeCloseTo(200 / 500, 3);
    expect(written(second as Node)).toBe('Bandstand200 m, 20.0 s');
  });

  test('greens stand at their seconds: out above the line, back below', () => {
    const spans = byClass(second as Node, 'aw-street-span').map((span) => {
      const block = byClass(span, 'aw-street-green')[0] as Node;
      const above = num(block, 'y') < num(lineOf(second), 'y1');
      return [span.attributes['data-direction'], above, num(block, 'x'), num(block, 'x') + num(block, 'width')];
    });
    const at = (direction: string, from: number, to: number) => [
      direction,
      direction === 'out',
      expect.closeTo(x(from), 1),
      expect.closeTo(x(to), 1),
    ];
    expect(spans).toEqual([at('out', 20, 50), at('out', 80, 110), at('back', 20, 50), at('back', 80, 110)]);
  });

  test('a band is a parallelogram through the greens, as wide as its seconds', () => {
    const bands = byClass(svg, 'aw-band').filter((band) => band.attributes['data-direction'] === 'out');
    const [whole] = bands.filter((band) => corners(band)[0]?.[0] === Math.round(x(0) * 100) / 100);
    const [y0, y1] = [num(lineOf(first), 'y1'), num(lineOf(third), 'y1')];
    const expected = [
      [x(0), y0],
      [x(50), y1],
      [x(80), y1],
      [x(30), y0],
    ];
    expect(corners(whole as Node)).toEqual(expected.map((point) => point.map((it) => expect.closeTo(it as number, 1))));
    expect(whole?.attributes['data-width']).toBe('30');
  });

  test('both bands are told in seconds and as shares, with a pattern each', () => {
    expect(written(svg)).toContain(
      'Pier Approach → Lifeboat Slipband 30.0 s, 50 % of the cycle; greens above the line',
    );
    const back = bandsOf(street, [0, 20, 50]).back.width;
    expect(written(svg)).toContain(
      back === 0 ? 'Lifeboat Slip → Pier Approachnobody' : `Lifeboat Slip → Pier Approachband ${back.toFixed(1)} s`,
    );
    const fills = byClass(svg, 'aw-band').map((band) => byClass(band, 'aw-band-fill')[0]?.attributes.fill);
    expect(fills).toContain('url(#aw-distance-Esplanade-out)');
    expect(byName(svg, 'pattern').map((it) => it.attributes.id)).toContain('aw-distance-Esplanade-out');
  });

  test('where nobody gets through it says so and draws no band', () => {
    const none = chart([0, 50, 20]);
    expect(bandsOf(street, [0, 50, 20]).out.width).toBe(0);
    expect(byClass(none, 'aw-band').filter((band) => band.attributes['data-direction'] === 'out')).toEqual([]);
    expect(written(none)).toContain('Pier Approach → Lifeboat Slipnobody passes all without a stop');
  });
});

function corners(band: Node): number[][] {
  const d = byClass(band, 'aw-band-edge')[0]?.attributes.d ?? '';
  return [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, a, b]) => [Number(a), Number(b)]);
}

describe('the street of a layout', () => {
  const onOneCycle = (): Layout => {
    const layout = penmarrow();
    const sites = layout.sites.map((site) => {
      if (site.kind !== 'junction') return site;
      return { ...site, group: 'fore-street', ...(site.id === 'market-cross' ? { offset: 10 } : {}) };
    });
    return { ...layout, groups: [{ id: 'fore-street', name: 'Fore Street', board: 'town', cycle: 60 }], sites };
  };

  test('has the junctions of the common cycle by their places, at the scale of the layout', () => {
    const { data, findings } = streetOf(onOneCycle(), 'chapel-corner', 10);
    expect(findings).toEqual([]);
    expect(data?.name).toBe('Fore Street');
    // 720 mm at 4 mm to the foot: 76.2 times as long.
    expect(data?.stops.map(({ id, distance, offset }) => [id, Math.round(distance * 1000), offset])).toEqual([
      ['market-cross', 0, 10],
      ['chapel-corner', 54_864, 0],
    ]);
  });

  test('a site that runs on its own has none, and is told how to get one', () => {
    const { data, findings } = streetOf(penmarrow(), 'market-cross', 10);
    expect(data).toBeNull();
    expect(findings).toMatchObject([{ code: 'no-common-cycle', path: 'sites[0].group', severity: 'error' }]);
  });

  test('a junction without a place is told', () => {
    const layout = onOneCycle();
    const sites = layout.sites.map(({ place, ...site }) =>
      site.id === 'chapel-corner' ? site : { ...site, place },
    ) as Layout['sites'];
    expect(streetOf({ ...layout, sites }, 'market-cross', 10)).toMatchObject({
      data: null,
      findings: [{ code: 'no-place' }],
    });
  });
});
