import { describe, expect, test } from 'vitest';
import { cycleOf } from '../../shared/drawings/phases/cycle.ts';
import { chartGeometry } from '../../shared/drawings/phases/geometry.ts';
import { lanesOf, lettersOf } from '../../shared/drawings/phases/lanes.ts';
import type { ChartSite } from '../../shared/drawings/phases/source.ts';
import { stageSpans } from '../../shared/drawings/phases/stages.ts';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { Junction } from '../../shared/layout/sites.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { everyKind } from '../fixtures/sites/index.ts';
import { compiledSite, junctionOf, madeByHand, marketCross, penmarrow, read } from './sites.ts';

/** `G 0-18`: what one lane shows and when, in seconds. */
function shown(site: ChartSite): Record<string, string> {
  const cycle = cycleOf(site);
  const second = (ms: number): string => `${ms / 1000}`;
  return Object.fromEntries(
    lanesOf(site, cycle).map((lane) => [
      lane.name,
      lane.bars
        .map(
          (bar) =>
            `${lettersOf(bar)} ${second(cycle.rows[bar.first]?.from ?? 0)}-${second(cycle.rows[bar.last]?.to ?? 0)}`,
        )
        .join(', '),
    ]),
  );
}

describe('one cycle of', () => {
  test('a plain junction: green, amber, red, red with amber, one road after the other', () => {
    expect(shown(marketCross())).toEqual({
      'Fore Street': 'G 0-18, A 18-21, R 21-40, RA 40-42',
      'Quay Hill': 'R 0-22, RA 22-24, G 24-36, A 36-39, R 39-42',
    });
  });

  test('a pelican: the green of the road waits for the button, then everything flashes and clears', () => {
    expect(shown(madeByHand('pelican'))).toEqual({
      road: 'G 0-20, A 20-23, R 23-30, a 30-40',
      crossing: 'R 0-24, G 24-30, g 30-38, R 38-40',
    });
    const waits = cycleOf(madeByHand('pelican')).rows.map(({ wait }) => wait);
    expect(waits[0]).toEqual({ is: 'input', kind: 'demand', inputs: [0], most: null });
    expect(waits.slice(1)).toEqual([null, null, null, null, null]);
  });

  test('a level crossing: dark until a train comes, amber, then reds in turn until it has gone', () => {
    const cycle = cycleOf(madeByHand('level crossing'));
    expect(cycle.rows.map(({ from, to, wait }) => [from, to, wait?.kind ?? null])).toEqual([
      [0, 0, 'active'],
      [0, 3000, null],
      [3000, 13_000, 'inactive'],
    ]);
    expect(shown(madeByHand('level crossing')).road).toBe('– 0-0, A 0-3, r 3-13');
  });

  test('a shuttle with traffic at both ends: each end once, without the rest in between', () => {
    const { rows, total, is } = cycleOf(madeByHand('road-works shuttle'));
    expect(rows.map(({ row }) => row)).toEqual([2, 3, 4, 5, 8, 9, 10, 11]);
    expect([total, is]).toEqual([50_000, 'cycle']);
    expect(rows[1]?.wait).toEqual({ is: 'extension', kind: null, inputs: [1], most: 18_000 });
  });

  test('a signal by levels: no cycle, but all that it can show in order of the table', () => {
    const { rows, is } = cycleOf(madeByHand('colour-light signals', 2));
    expect([is, rows.map(({ row }) => row)]).toEqual(['list', [3, 5, 7, 9]]);
  });

  test('beacons: two flashes, the second of a pair in the dark part of the first', () => {
    const site = compiledSite(penmarrow(), 'harbour-crossing');
    expect(cycleOf(site).is).toBe('flash');
    expect(shown(site)).toEqual({
      'Harbour side': 'A 0-0.75, – 0.75-1.5, A 1.5-2.25, – 2.25-3',
      'Shop side': '– 0-0.75, A 0.75-1.5, – 1.5-2.25, A 2.25-3',
    });
  });

  test('a junction with skipped and extended stages: all of them, as if everybody waited', () => {
    const layout = junctionOf(4);
    const input = (id: string, pin: string) => ({ id, name: `Loop ${id}`, board: 'town', pin });
    const sites = layout.sites.map((site) => {
      if (site.kind !== 'junction') return site;
      const phases = site.phases.map((phase) => ({ ...phase, demand: [phase.id] }));
      const stages = site.stages.map((stage, at) => ({ ...stage, skip: at === 1, extend: { maximum: 40, gap: 3 } }));
      return { ...site, phases, stages, intergreens: {} };
    });
    const inputs = [input('A', 'D22'), input('B', 'D23'), input('C', 'D24'), input('D', 'D25')];
    const site = compiledSite(read(JSON.stringify({ ...layout, inputs, sites })), 'cross');
    const cycle = cycleOf(site);
    const spans = stageSpans(site.site as Junction, lanesOf(site, cycle), cycle);
    expect(spans.map(({ is, stage }) => `${is} ${stage}`)).toEqual([
      'stage 0',
      'interstage 1',
      'stage 1',
      'interstage 0',
    ]);
    expect(
      cycle.rows.filter((row) => row.wait !== null).map(({ wait, from, to }) => [wait?.is, wait?.most, to - from]),
    ).toEqual([
      ['extension', 31_000, 9000],
      ['extension', 27_000, 13_000],
    ]);
    expect(cycle.total).toBe(9000 + 5000 + 13_000 + 5000);
  });

  test('a phase without lamps has a lane that says so', () => {
    const layout = penmarrow();
    const sites = layout.sites.map((site) =>
      site.kind === 'junction' && site.id === 'chapel-corner'
        ? {
            ...site,
            phases: site.phases.map(({ lamps, ...phase }) => (phase.id === 'B' ? phase : { ...phase, lamps })),
          }
        : site,
    ) as typeof layout.sites;
    expect(shown(compiledSite({ ...layout, sites }, 'chapel-corner'))).toEqual({
      'Fore Street': 'G 0-25, A 25-28, R 28-42, RA 42-44',
      'Chapel Lane': '',
    });
  });

  test('a program that never comes back to a row ends all the same', () => {
    const site = marketCross();
    const rows = [{ op: 'jump', when: { kind: 'noDemand', inputs: [] }, to: 0 }] as const;
    expect(cycleOf({ ...site, program: { ...site.program, rows } }).rows).toEqual([]);
  });
});

describe('the reference interpreter lasts as long in each row of', () => {
  const steady = ['two-stage junction', 'junction with early cut-off', 'junction with filter arrow', 'common cycle'];
  const cases = steady.flatMap((kind) => (everyKind[kind]?.sites ?? []).map((_, index) => [kind, index] as const));
  test.each(cases)('%s, site %i', (kind, index) => {
    const table = everyKind[kind] as BoardTable;
    const entered: [number, number][] = [];
    const board = new Interpreter(table, { row: (ms, site, row) => site === index && entered.push([row, ms]) });
    board.start();
    board.run(400_000);
    // The first rows may be longer: a delayed start, a common cycle not yet met.
    const lasted = entered.slice(-13).map(([row, ms], at, all) => [row, (all[at + 1]?.[1] ?? ms) - ms]);
    const drawn = cycleOf(madeByHand(kind, index)).rows.map(({ row, from, to }) => [row, to - from]);
    expect(drawn.length).toBeGreaterThan(7);
    for (const it of lasted.slice(0, -1)) expect(drawn).toContainEqual(it);
  });
});

describe('time and place', () => {
  test('run evenly on a chart without waits', () => {
    const geometry = chartGeometry(cycleOf(marketCross()), 200, 620);
    expect([0, 18_000, 21_000, 24_000, 42_000].map((ms) => geometry.xOf(ms))).toEqual([200, 380, 410, 440, 620]);
    expect([100, 200, 385, 620, 900].map((x) => geometry.timeOf(x))).toEqual([0, 0, 18_500, 42_000, 42_000]);
    expect(geometry.cursorX(4, 6000)).toBe(500);
    expect(geometry.cursorX(99, 0)).toBeNull();
  });

  test('a row that waits has a gap in which no planned time passes', () => {
    const geometry = chartGeometry(cycleOf(madeByHand('pelican')), 100, 556);
    expect(geometry.pixelsPerMs).toBe(0.01);
    const [green, amber] = geometry.rows;
    expect([green?.x, green?.xLeast, green?.xEnd, amber?.x]).toEqual([100, 300, 356, 356]);
    expect([geometry.timeOf(300), geometry.timeOf(340), geometry.timeOf(366)]).toEqual([20_000, 20_000, 21_000]);
    // Half the gap after ten seconds of waiting, and never beyond it.
    expect([0, 20_000, 30_000].map((elapsed) => geometry.cursorX(0, elapsed))).toEqual([100, 300, 328]);
    expect(geometry.cursorX(0, 1e9)).toBeLessThan(356);
  });

  test('an extended green goes through its gap in the time that it has at most', () => {
    const geometry = chartGeometry(cycleOf(madeByHand('road-works shuttle')), 0, 1112);
    expect(geometry.pixelsPerMs).toBe(0.02);
    expect([12_000, 21_000, 30_000, 40_000].map((elapsed) => geometry.cursorX(3, elapsed))).toEqual([
      280, 308, 336, 336,
    ]);
  });

  test('a flash that goes on and on is found in the two that are drawn', () => {
    const geometry = chartGeometry(cycleOf(compiledSite(penmarrow(), 'harbour-crossing')), 0, 300);
    expect([0, 750, 2900, 3000, 3100].map((elapsed) => geometry.cursorX(0, elapsed))).toEqual([0, 75, 290, 0, 10]);
  });
});
