import { describe, expect, test } from 'vitest';
import { phaseChart, phaseChartGeometry } from '../../shared/drawings/phase-chart.ts';
import { phaseChartData } from '../../shared/drawings/phases/chart.ts';
import { atTimes, type ChartSite } from '../../shared/drawings/phases/source.ts';
import { stageChanges } from '../../shared/drawings/stages/changes.ts';
import { everyKind } from '../fixtures/sites/index.ts';
import { compiledSite, junctionOf, madeByHand, marketCross, penmarrow } from './sites.ts';
import { byClass, byName, type Node, num, parseXml, written } from './xml.ts';

const draw = (site: ChartSite, options = {}): Node => parseXml(phaseChart(site, options));

describe('the chart of Market Cross', () => {
  const site = marketCross();
  const svg = draw(site);
  const geometry = phaseChartGeometry(site, 1000);
  const x = (seconds: number): number => Math.round(geometry.xOf(seconds * 1000) * 100) / 100;

  test('has one lane for each phase, with its letter, its name and its share of the cycle', () => {
    const lanes = byClass(svg, 'aw-lane');
    expect(lanes.map((lane) => lane.attributes['data-lane'])).toEqual(['A', 'B']);
    expect(lanes.map((lane) => byName(lane, 'text').map(written))).toEqual([
      ['A Fore Street', 'G', 'A', 'R', 'RA', 'green 18.0 s, 43 %'],
      ['B Quay Hill', 'R', 'RA', 'G', 'A', 'R', 'green 12.0 s, 29 %'],
    ]);
  });

  test('bars stand at their seconds', () => {
    const [lane] = byClass(svg, 'aw-lane');
    const bars = byClass(lane as Node, 'aw-bar').map((bar) => {
      const [base] = byClass(bar, 'aw-base');
      return [
        bar.attributes['data-shows'],
        num(base as Node, 'x'),
        num(base as Node, 'x') + num(base as Node, 'width') + 1,
      ];
    });
    expect(bars).toEqual(
      [
        ['green', x(0), x(18)],
        ['amber', x(18), x(21)],
        ['red', x(21), x(40)],
        ['red with amber', x(40), x(42)],
      ].map(([shows, from, to]) => [shows, from, expect.closeTo(to as number, 1)]),
    );
    expect(geometry.right).toBe(808);
  });

  test('aspects differ by fill and letter, not by colour alone', () => {
    const looks = byClass(svg, 'aw-lane')
      .flatMap((lane) => byClass(lane, 'aw-bar'))
      .map((bar) => {
        const body = byClass(bar, 'aw-body')[0]?.attributes.fill;
        return `${bar.attributes['data-shows']}: ${bar.attributes.class} ${body}`;
      });
    expect([...new Set(looks)].sort()).toEqual([
      'amber: aw-bar aw-change url(#aw-phases-market-cross-change)',
      'green: aw-bar aw-go none',
      'red with amber: aw-bar aw-ready url(#aw-phases-market-cross-ready)',
      'red: aw-bar aw-stop none',
    ]);
  });

  test('stages and the changes between them stand above, with their seconds', () => {
    expect(byClass(svg, 'aw-stage').map((span) => byName(span, 'text').map(written))).toEqual([
      ['Stage 1, Fore Street', '18.0 s'],
      ['Stage 2, Quay Hill', '12.0 s'],
    ]);
    expect(byClass(svg, 'aw-interstage').map((span) => num(span, 'data-ms'))).toEqual([6000, 6000]);
    expect(stageChanges(phaseChartData(site, 1000))).toEqual([6000, 6000]);
  });

  test('intergreens have their names, and an arrow from the end of one green to the start of the next', () => {
    const greens = byClass(svg, 'aw-intergreen');
    expect(greens.map((it) => byName(it, 'text').map(written))).toEqual([['A → B  6.0 s'], ['B → A  6.0 s']]);
    const [path] = byName(greens[0] as Node, 'path');
    expect(path?.attributes.d?.startsWith(`M${x(18)} `)).toBe(true);
    expect(path?.attributes.d).toContain(`L${x(24)} `);
  });

  test('the axis counts seconds up to the cycle', () => {
    const [axis] = byClass(svg, 'aw-axis');
    expect(byName(axis as Node, 'text').map(written)).toEqual([
      '0.0 s',
      '5.0 s',
      '10.0 s',
      '15.0 s',
      '20.0 s',
      '25.0 s',
      '30.0 s',
      '35.0 s',
      '42.0 s',
    ]);
    expect(byName(axis as Node, 'text').map((it) => num(it, 'x'))).toEqual([0, 5, 10, 15, 20, 25, 30, 35, 42].map(x));
  });

  test('each dial has a handle where its interval ends, with its limits in ms and in pixels', () => {
    const [green, amber, again] = byClass(svg, 'aw-handle');
    expect(green?.attributes).toMatchObject({
      'data-dial': '0',
      'data-row': '0',
      'data-value': '18000',
      'data-greatest': '255000',
    });
    expect([num(green as Node, 'data-x-from'), num(green as Node, 'data-x')]).toEqual([x(0), x(18)]);
    // The far limit lies beyond the chart.
    expect(num(green as Node, 'data-x-greatest')).toBe(geometry.right);
    expect([amber, again].map((it) => [it?.attributes['data-dial'], num(it as Node, 'data-x')])).toEqual([
      ['2', x(21)],
      ['2', x(39)],
    ]);
    const least = num(amber as Node, 'data-least') / 1000;
    expect(num(amber as Node, 'data-x-least')).toBe(x(18 + least));
  });

  test('a cursor stands where the board is, and is not there without one', () => {
    expect(byClass(svg, 'aw-cursor')).toEqual([]);
    const [cursor] = byClass(draw(site, { cursor: { row: 3, elapsed: 1000 } }), 'aw-cursor');
    expect(cursor?.attributes.transform).toBe(`translate(${geometry.cursorX(3, 1000)} 0)`);
    expect(geometry.cursorX(3, 1000)).toBeCloseTo(x(23), 1);
  });

  test('says everything in words, too', () => {
    const [title, desc] = [byName(svg, 'title')[0], byName(svg, 'desc')[0]];
    expect(svg.attributes).toMatchObject({
      role: 'img',
      'aria-labelledby': `${title?.attributes.id} ${desc?.attributes.id}`,
    });
    expect(title?.text).toBe('Market Cross: cycle 42.0 s');
    expect(desc?.text).toContain(
      'A Fore Street: green from 0.0 s to 18.0 s, amber from 18.0 s to 21.0 s, red from 21.0 s',
    );
    expect(desc?.text).toContain('Intergreen from A to B 6.0 s.');
  });

  test('at other times the chart moves with them', () => {
    const longer = draw(atTimes(site, [20_000]));
    expect(byName(longer, 'title')[0]?.text).toBe('Market Cross: cycle 44.0 s');
    expect(byClass(longer, 'aw-lane').map((lane) => written(byName(lane, 'text').at(-1) as Node))).toEqual([
      'green 20.0 s, 45 %',
      'green 12.0 s, 27 %',
    ]);
  });

  test('live, its handles are sliders in seconds that a keyboard reaches', () => {
    const live = draw(site, { isLive: true });
    expect(live.attributes.role).toBe('group');
    expect(byClass(live, 'aw-handle')[0]?.attributes).toMatchObject({
      role: 'slider',
      tabindex: '0',
      'aria-label': 'Green, Fore Street',
      'aria-valuenow': '18',
      'aria-valuetext': '18.0 s',
    });
    expect(byClass(live, 'aw-cursor')).toHaveLength(1);
  });
});

test('phases that leave and gain at different times have an intergreen each, equal ones one together', () => {
  const chart = phaseChartData(compiledSite(junctionOf(4), 'cross'), 1000);
  expect(chart.intergreens.map(({ from, to, ms }) => [from.join(), to.join(), ms])).toEqual([
    ['A,B', 'C', 6000],
    ['A,B', 'D', 8000],
    ['C,D', 'A,B', 5000],
  ]);
});

test('with three stages each green clears for the next one only', () => {
  const chart = phaseChartData(compiledSite(junctionOf(6), 'cross'), 1000);
  expect(chart.intergreens.map(({ from, to, ms }) => [from.join(), to.join(), ms])).toEqual([
    ['A,B', 'C', 6000],
    ['A,B', 'D', 8000],
    ['C,D', 'E,F', 5000],
    ['E,F', 'A,B', 5000],
  ]);
});

test('what waits is marked and explained', () => {
  const svg = draw(madeByHand('pelican'));
  const [wait] = byClass(svg, 'aw-wait');
  expect([wait?.attributes['data-row'], wait && written(wait)]).toEqual(['0', 'a']);
  expect(written(svg)).toContain('waits for a demand from button');
  expect(byName(svg, 'desc')[0]?.text).toContain('0 until: waits for a demand from button.');
});

test('flashing is told by small letters, stripes and its rate', () => {
  const svg = draw(madeByHand('level crossing'));
  const bar = byClass(svg, 'aw-flashing')[0] as Node;
  expect(bar.attributes['data-shows']).toBe('alternately flashing red');
  expect(written(bar)).toBe('r');
  expect(written(svg)).toContain('alternately flashing red, 75 a minute');
});

test('names with any letters are text, never markup', () => {
  const layout = penmarrow();
  const name = '<b>"Fish" & Chips</b>';
  const sites = layout.sites.map((site) => (site.id === 'market-cross' ? { ...site, name } : site));
  const svg = draw(compiledSite({ ...layout, sites }, 'market-cross'));
  expect(byName(svg, 'title')[0]?.text).toBe(`${name}: cycle 42.0 s`);
  expect(byName(svg, 'b')).toEqual([]);
});

describe('every kind of site', () => {
  const cases = Object.entries(everyKind).flatMap(([kind, table]) =>
    table.sites.map((_, index) => [kind, index] as const),
  );
  test.each(cases)(
    '%s, site %i: a whole file, with letters in every bar that has room, and every pattern there',
    (kind, index) => {
      const source = phaseChart(madeByHand(kind, index));
      const svg = parseXml(source);
      const ids = byName(svg, 'pattern').map((it) => it.attributes.id);
      for (const [, id] of source.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(id);
      const bars = byClass(svg, 'aw-lane').flatMap((lane) => byClass(lane, 'aw-bar'));
      expect(bars.length).toBeGreaterThan(0);
      for (const bar of bars) {
        const [base] = byClass(bar, 'aw-base');
        if (num(base as Node, 'width') >= 42) expect(written(bar)).not.toBe('');
      }
      expect(source).not.toMatch(/NaN|undefined|Infinity/);
    },
  );
});

describe('colours', () => {
  const site = marketCross();
  test('a theme that is asked for is the only one', () => {
    expect(phaseChart(site, { theme: 'dark' })).toContain('--aw-ground:var(--ground,#12161a)');
    expect(phaseChart(site, { theme: 'dark' })).not.toContain('#fbf9f4');
    expect(phaseChart(site, { theme: 'light' })).toContain('--aw-ground:var(--ground,#fbf9f4)');
    expect(phaseChart(site, { theme: 'light' })).not.toContain('#12161a');
  });
  test('else the reader decides, and nothing comes from elsewhere', () => {
    const source = phaseChart(site);
    expect(source).toMatch(/#fbf9f4.*@media \(prefers-color-scheme:dark\).*#12161a/s);
    expect(source.match(/https?:\/\/[^"]+/g)).toEqual(['http://www.w3.org/2000/svg']);
  });
  test('bare, it has no styles of its own', () => {
    expect(byName(draw(site, { bare: true }), 'style')).toEqual([]);
  });
});
