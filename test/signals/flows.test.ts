/** Greens from traffic: what comes out for a junction of the layout, and what is said when it cannot. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { delay } from '../../shared/signals/flows/delay.ts';
import { roundShares, shareOut } from '../../shared/signals/flows/share.ts';
import { applySplit, type SplitRequest, splitJunction } from '../../shared/signals/flows/split.ts';
import { type Edits, edited, smallLayout } from '../layout/small.ts';
import { esplanade, WIRED } from './two-boards.ts';

function layoutWith(edits: Edits = {}) {
  const { layout, findings } = parseLayout(JSON.stringify(edited(smallLayout(), edits)));
  if (layout === null) throw new Error(JSON.stringify(findings));
  return layout;
}

/** One stream of 1,800 vehicles an hour a stage. */
const flows = (...list: number[]): SplitRequest => ({ stages: list.map((flow) => [{ flow, saturation: 1800 }]) });

const codes = (found: { findings: readonly { code: string; path: string }[] }) =>
  found.findings.map(({ code, path }) => `${code} at ${path}`);

describe('a junction of two stages with changes of 5 s', () => {
  test('its lost time is 4 s a stage: 2 s of the change beside the amber, 2 s to start', () => {
    const { split } = splitJunction(layoutWith(), 'cross', flows(720, 360));
    // Y 0.6, L 8: (12 + 5) / 0.4.
    expect(split?.webster).toEqual({
      ratios: [0.4, 0.2],
      total: expect.closeTo(0.6, 9),
      lostTime: 8,
      optimum: expect.closeTo(42.5, 9),
    });
  });

  test('without a cycle it gets the optimum within the practical range, here 45 s', () => {
    const { split, findings } = splitJunction(layoutWith(), 'cross', flows(720, 360));
    expect(findings).toEqual([]);
    // 37 s of effective green as 2 to 1; the green on a head is 1 s shorter (amber 3 s less start 2 s).
    expect(split?.cycle).toBe(45);
    expect(split?.stages).toEqual([
      {
        id: '1',
        name: 'A Street',
        ratio: 0.4,
        effective: expect.closeTo(24.667, 3),
        wanted: expect.closeTo(23.667, 3),
        green: 24,
      },
      {
        id: '2',
        name: 'B Street',
        ratio: 0.2,
        effective: expect.closeTo(12.333, 3),
        wanted: expect.closeTo(11.333, 3),
        green: 11,
      },
    ]);
  });

  test('the layout with the greens compiles to that cycle', () => {
    const layout = layoutWith();
    const { split } = splitJunction(layout, 'cross', { ...flows(720, 360), cycle: 60 });
    if (split === null) throw new Error('no split');
    const applied = applySplit(layout, 'cross', split);
    const { boards, findings } = compileLayout(applied);
    expect(findings).toEqual([]);
    const dials = boards[0]?.sites[0]?.dials.map(({ id }, index) => [id, boards[0]?.table.sites[0]?.dials[index]]);
    expect(dials).toEqual([
      ['green-1', 34000],
      ['green-2', 16000],
      ['amber', 3000],
      ['red-with-amber', 2000],
    ]);
    expect(layout.sites[0]).toMatchObject({ stages: [{ green: 18 }, { green: 12 }] });
  });

  test('a short cycle for watching keeps the minimum green, and says who asked for less', () => {
    const found = splitJunction(layoutWith(), 'cross', { ...flows(1000, 100), cycle: 30 });
    expect(found.split?.stages.map(({ green }) => green)).toEqual([13, 7]);
    expect(codes(found)).toEqual([
      'minimum-kept at sites[0].stages[1].green',
      'cycle-off-optimum at sites[0]',
      'queues-grow at sites[0].stages[0].green',
    ]);
    expect(found.findings[0]?.what).toBe('B Street would get 1 s by its traffic, and gets 7 s.');
  });

  test('a cycle with a fraction of a second is met exactly', () => {
    const { split } = splitJunction(layoutWith(), 'cross', { ...flows(500, 500), cycle: 40.25 });
    expect(split?.stages.map(({ green }) => green).reduce((sum, green) => sum + green, 10)).toBe(40.25);
  });

  test('a lost time of the user changes the optimum and not the sum', () => {
    const { split } = splitJunction(layoutWith(), 'cross', { ...flows(720, 360), lostTime: 16, cycle: 60 });
    expect(split?.webster.optimum).toBeCloseTo(29 / 0.4, 9);
    expect(split?.stages.map(({ green }) => green).reduce((sum, green) => sum + green, 10)).toBe(60);
  });

  test('a stage that its traffic lengthens is told of', () => {
    const edits = {
      inputs: [{ id: 'loop', name: 'Loop', board: 'b1', pin: 'D8' }],
      'sites.0.stages.1.extend': { maximum: 30, detectors: ['loop'] },
    };
    expect(codes(splitJunction(layoutWith(edits), 'cross', flows(720, 360)))).toEqual([
      'green-varies at sites[0].stages[1]',
    ]);
  });

  test('the common cycle is the cycle; another one is warned of', () => {
    const common = {
      groups: [{ id: 'street', name: 'The Street', board: 'b1', cycle: 50 }],
      'sites.0.group': 'street',
    };
    expect(splitJunction(layoutWith(common), 'cross', flows(720, 360)).split?.cycle).toBe(50);
    expect(codes(splitJunction(layoutWith(common), 'cross', { ...flows(720, 360), cycle: 55 }))).toEqual([
      'split-other-cycle at sites[0].group',
    ]);
  });
});

test('a junction that follows the beat of another board leaves a second to spare, and then has none to be warned of', () => {
  const layout = esplanade(WIRED);
  const found = splitJunction(layout, 'slip', flows(400, 250));
  if (found.split === null) throw new Error('no split');
  expect(codes(found)).toContain('spare-left at sites[1].stages');
  expect(found.split.cycle).toBe(60);
  const greens = found.split.stages.map(({ green }) => green);
  expect(greens.reduce((sum, green) => sum + green, 10)).toBe(59);
  expect(compileLayout(applySplit(layout, 'slip', found.split)).findings).toEqual([]);
});

describe('what cannot be', () => {
  test('more traffic than the junction takes', () => {
    const found = splitJunction(layoutWith(), 'cross', flows(1000, 800));
    expect(found.split).toBeNull();
    expect(codes(found)).toEqual(['too-much-traffic at sites[0].stages']);
    expect(found.findings[0]?.what).toContain('more traffic than the junction takes');
    expect(found.findings[0]?.what).toContain('1.00');
  });

  test('just below that there is an optimum that no street has, and it is said', () => {
    const found = splitJunction(layoutWith(), 'cross', flows(1000, 790));
    expect(found.split?.cycle).toBe(120);
    expect(codes(found)).toContain('cycle-unusual at sites[0]');
  });

  test('no traffic at all: equal greens and a warning each', () => {
    const found = splitJunction(layoutWith(), 'cross', { ...flows(0, 0), cycle: 40 });
    expect(found.split?.stages.map(({ green }) => green)).toEqual([15, 15]);
    expect(codes(found).filter((code) => code.startsWith('no-traffic'))).toHaveLength(2);
  });

  test('a cycle that the minimum greens do not fit into names the shortest', () => {
    const found = splitJunction(layoutWith(), 'cross', { ...flows(400, 250), cycle: 20 });
    expect(found.split).toBeNull();
    expect(found.findings[0]).toMatchObject({
      code: 'cycle-too-short',
      why: 'Its changes and minimum greens need 24 s.',
    });
    expect(splitJunction(layoutWith(), 'cross', { ...flows(400, 250), cycle: 24 }).split?.stages).toMatchObject([
      { green: 7 },
      { green: 7 },
    ]);
  });

  test.each([
    ['a flow below zero', flows(-1, 200), 'bad-flow at sites[0].stages[0]'],
    ['a flow that is no number', flows(Number.NaN, 200), 'bad-flow at sites[0].stages[0]'],
    ['an endless flow', flows(100, Number.POSITIVE_INFINITY), 'bad-flow at sites[0].stages[1]'],
    ['no saturation', { stages: [[{ flow: 1, saturation: 0 }], []] }, 'bad-saturation at sites[0].stages[0]'],
    ['a lost time below zero', { ...flows(1, 1), lostTime: -1 }, 'bad-lost-time at sites[0].stages'],
    ['a cycle of nothing', { ...flows(1, 1), cycle: 0 }, 'bad-cycle at sites[0]'],
    ['a cycle that is no number', { ...flows(1, 1), cycle: Number.NaN }, 'bad-cycle at sites[0]'],
    ['one flow for two stages', flows(400), 'flows-and-stages at sites[0].stages'],
  ] as const)('%s', (_, request, expected) => {
    const found = splitJunction(layoutWith(), 'cross', request);
    expect(found.split).toBeNull();
    expect(codes(found)).toEqual([expected]);
  });

  test('a site that is none, and one that is no junction', () => {
    expect(codes(splitJunction(layoutWith(), 'quay', flows(1, 1)))).toEqual(['unknown-site at sites']);
    expect(codes(splitJunction(layoutWith(), 'zebra', flows(1, 1)))).toEqual(['not-a-junction at sites[1]']);
  });

  test('delay has no value where queues grow or nobody comes', () => {
    expect(delay({ flow: 900, saturation: 1800 }, 60, 30)).toBeNull();
    expect(delay({ flow: 0, saturation: 1800 }, 60, 30)).toBeNull();
    expect(delay({ flow: 100, saturation: 1800 }, 60, 0)).toBeNull();
    expect(delay({ flow: 100, saturation: 1800 }, 60, 61)).toBeNull();
  });
});

describe('properties', () => {
  const stage = fc.record({ green: fc.integer({ min: 7, max: 40 }), flow: fc.integer({ min: 0, max: 590 }) });

  test('greens and changes add up to the cycle, every minimum is kept, the layout compiles', () => {
    fc.assert(
      fc.property(
        fc.array(stage, { minLength: 2, maxLength: 3 }),
        fc.integer({ min: 15, max: 180 }),
        fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 3, maxLength: 3 }),
        // Stages that a phase of its own shares with the next, as an early cut-off does.
        fc.boolean(),
        (list, cycle, minimums, cutOff) => {
          const ids = ['A', 'B', 'C'].slice(0, list.length);
          const phases = ids.map((id, index) => ({ id, name: id, minGreen: minimums[index] }));
          const stages = list.map(({ green }, index) => ({
            id: String(index + 1),
            phases: [...(cutOff && index < 2 ? ['D'] : []), ids[index]],
            green,
          }));
          const extra = cutOff ? [{ id: 'D', name: 'D', minGreen: 20 }] : [];
          const layout = layoutWith({
            'sites.0.phases': [...phases, ...extra],
            'sites.0.stages': stages,
            'sites.0.heads': [],
            'sites.0.intergreens': {},
            'sites.0.conflicts': [],
          });
          const { split, findings } = splitJunction(layout, 'cross', {
            ...flows(...list.map(({ flow }) => flow)),
            cycle,
          });
          if (split === null) {
            expect(findings.map(({ code }) => code)).toContain('cycle-too-short');
            return;
          }
          const applied = applySplit(layout, 'cross', split);
          const compiled = compileLayout(applied);
          expect(compiled.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
          const [site] = compiled.boards[0]?.table.sites ?? [];
          const [program] = compiled.boards[0]?.table.programs ?? [];
          const length = program?.rows.reduce(
            (sum, row) => sum + (row.op === 'after' ? (site?.dials[row.dial] ?? 0) : 0),
            0,
          );
          expect(length).toBe(cycle * 1000);
        },
      ),
      { numRuns: 150 },
    );
  });

  test('more traffic never gets less green, with the others as they are', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 800 }), fc.integer({ min: 1, max: 800 }), (one, other) => {
        const layout = layoutWith();
        const green = (flow: number) =>
          splitJunction(layout, 'cross', { ...flows(flow, other), cycle: 60 }).split?.stages[0]?.green ?? 0;
        expect(green(one + 50)).toBeGreaterThanOrEqual(green(one));
      }),
      { numRuns: 100 },
    );
  });

  test('shares add up, keep their leasts and stand in proportion where no least holds them', () => {
    const share = fc.record({ weight: fc.integer({ min: 0, max: 20 }), least: fc.integer({ min: 0, max: 20 }) });
    fc.assert(
      fc.property(fc.array(share, { minLength: 1, maxLength: 6 }), fc.integer({ min: 0, max: 120 }), (list, total) => {
        const weights = list.map(({ weight }) => weight);
        const leasts = list.map(({ least }) => least);
        const shares = shareOut(total, weights, leasts);
        const least = leasts.reduce((sum, it) => sum + it, 0);
        expect(shares === null).toBe(least > total);
        if (shares === null) return;
        expect(shares.reduce((sum, it) => sum + it, 0)).toBeCloseTo(total, 6);
        shares.forEach((it, index) => {
          expect(it).toBeGreaterThanOrEqual((leasts[index] ?? 0) - 1e-6);
        });
        const free = shares.map((it, index) => it > (leasts[index] ?? 0) + 1e-6);
        const rates = shares.flatMap((it, index) =>
          free[index] && (weights[index] ?? 0) > 0 ? [it / (weights[index] ?? 1)] : [],
        );
        for (const rate of rates) expect(rate).toBeCloseTo(rates[0] ?? 0, 6);
        const rounded = roundShares(shares, total, leasts);
        expect(rounded.reduce((sum, it) => sum + it, 0)).toBe(total);
        rounded.forEach((it, index) => {
          expect(Number.isInteger(it) && it >= (leasts[index] ?? 0)).toBe(true);
          expect(Math.abs(it - (shares[index] ?? 0))).toBeLessThan(1 + 1e-6);
        });
      }),
    );
  });
});
