/** The baselines are honest: they show the example. And the bench's own rulers measure what they say. */
import { describe, expect, test } from 'vitest';
import { seededDice } from '../fixtures/dice.ts';
import { type BuiltProgram, buildBaseline, powered } from './baseline/build.ts';
import { CycleMeter } from './bench/cycles.ts';
import { errorsOf, worstOf } from './bench/edge-errors.ts';
import { hostDriven } from './bench/host-driven.ts';
import { largest } from './bench/largest.ts';
import { benchTable, renewed } from './bench/readme.ts';
import { Results } from './bench/results.ts';
import { penmarrowBoard, withoutSweep } from './example.ts';
import { type IdealEdge, idealEdges } from './ideal.ts';
import { PENMARROW } from './penmarrow.ts';
import { CYCLES_PER_MS, type Edge, Rig } from './rig.ts';

const table = withoutSweep(penmarrowBoard().table);
/** The slower junction's cycle, and a little of the next one. */
const CYCLE_MS = 45_000;

/**
 * What the usual program shows, without its waiting: before each change on paper its clock is put to 3 ms before the
 * time, then it runs for 8 ms. Each entry is a change on paper with what was seen in these 8 ms.
 */
function quickly(program: BuiltProgram): { readonly due: IdealEdge[]; readonly seen: string[] }[] {
  const { board, edges } = powered(program, table);
  const loop = program.addresses.get('loop') ?? 0;
  const clock = program.addresses.get('clock_ms') ?? 0;
  board.runToAddress(loop, CYCLES_PER_MS);
  const ideal = idealEdges(PENMARROW, CYCLE_MS);
  const found: { due: IdealEdge[]; seen: string[] }[] = [];
  for (const ms of [...new Set(ideal.map((edge) => edge.ms))]) {
    if (ms > 0) {
      // At the beginning of its loop nothing reads the clock.
      board.runToAddress(loop, CYCLES_PER_MS);
      for (let byte = 0; byte < 4; byte++) board.poke(clock + byte, ((ms - 3) >>> (8 * byte)) & 0xff);
      expect(edges.splice(0).map(text), `before ${ms} ms`).toEqual([]);
      board.run(8 * CYCLES_PER_MS);
    }
    found.push({ due: ideal.filter((edge) => edge.ms === ms), seen: edges.splice(0).map(text).sort() });
  }
  return found;
}

const text = ({ lamp, lit }: { readonly lamp: number; readonly lit: boolean }) => `${lamp} ${lit ? 'on' : 'off'}`;

describe.each(['usual', 'added-up'] as const)('the program "%s"', (name) => {
  test('shows every change of the example at its time on paper, and nothing between', () => {
    const found = quickly(buildBaseline(name));
    expect(found.length).toBeGreaterThan(60);
    for (const { due, seen } of found) expect(seen, `at ${due[0]?.ms} ms`).toEqual(due.map(text).sort());
  });
});

test('the host-driven board shows the example, too, late by the line and the frame only', () => {
  const options = { lateness: { late: [0], busyThreads: 0, load: 0 }, byDeadline: true, ms: 2 * CYCLE_MS };
  const edges = hostDriven(buildBaseline('driven'), table, PENMARROW, seededDice(1), options);
  const worst = worstOf(errorsOf(edges, PENMARROW));
  expect(worst.wrong).toBeNull();
  expect(worst.edges).toBeGreaterThan(200);
  // Up to five bytes of 0.17 ms and a frame of 1 ms.
  expect(worst.worstMs).toBeLessThan(2);
  const late = hostDriven(buildBaseline('driven'), table, PENMARROW, seededDice(1), {
    ...options,
    lateness: { late: [5], busyThreads: 0, load: 0 },
    byDeadline: false,
  });
  // 5 ms lost in each interval of 750 ms.
  expect(errorsOf(late, PENMARROW)[2]?.driftMsPerDay).toBeCloseTo((86_400_000 * 5) / 750, -4);
});

describe('the rulers', () => {
  /** The example on paper as if it were measured, by a clock that runs slow by so much. */
  const paper = (slow = 0): Edge[] =>
    idealEdges(PENMARROW, 300_000).map(({ ms, lamp, lit }) => ({ cycles: ms * (1 + slow) * CYCLES_PER_MS, lamp, lit }));

  test('find no error on paper, and a drift where there is one', () => {
    expect(worstOf(errorsOf(paper(), PENMARROW))).toMatchObject({ worstMs: 0, intervalMs: 0, wrong: null });
    const slow = errorsOf(paper(1e-5), PENMARROW);
    for (const site of slow) expect(site.driftMsPerDay).toBeCloseTo(864, 3);
    expect(worstOf(slow).worstMs).toBeCloseTo(3, 0);
  });

  test('find edges that are missing, doubled or late, and a lamp that stops', () => {
    const wrong = (edges: readonly Edge[]) => worstOf(errorsOf(edges, PENMARROW)).wrong;
    expect(wrong(paper().filter((_, at) => at !== 40))).not.toBeNull();
    expect(wrong(paper().flatMap((edge, at) => (at === 40 ? [edge, edge] : [edge])))).not.toBeNull();
    expect(wrong(paper().filter(({ lamp, cycles }) => lamp !== 12 || cycles < 100_000 * CYCLES_PER_MS))).not.toBeNull();
    const late = paper().map((edge, at) => (at === 40 ? { ...edge, cycles: edge.cycles + 32_000 } : edge));
    expect(worstOf(errorsOf(late, PENMARROW))).toMatchObject({ worstMs: 2, intervalMs: 2, wrong: null });
  });

  test('count cycles without changing what the board does', () => {
    const [plain, metered] = [new Rig(table), new Rig(table)];
    for (const rig of [plain, metered]) rig.board.power(true);
    plain.runMs(2000);
    const meter = new CycleMeter(metered.board);
    meter.run(2000 * CYCLES_PER_MS);
    expect(metered.edges).toEqual(plain.edges);
    const use = meter.result();
    expect(use.awakeShare).toBeGreaterThan(use.interruptShare);
    expect(use.awakeShare).toBeLessThan(0.5);
  });

  test('count an interrupt a byte on a board that sleeps otherwise, and no sleep where there is none', () => {
    const { board } = powered(buildBaseline('driven'), table);
    board.run(10 * CYCLES_PER_MS);
    const still = new CycleMeter(board);
    still.run(10 * CYCLES_PER_MS);
    expect(still.result()).toMatchObject({ interruptShare: 0, awakeShare: 0 });
    const share = (bytes: number) => {
      const meter = new CycleMeter(board);
      board.write(new Uint8Array(bytes).fill(0x82));
      meter.run(20 * CYCLES_PER_MS);
      return meter.result().interruptShare;
    };
    const one = share(1);
    expect(one).toBeGreaterThan(0);
    expect(share(10)).toBeCloseTo(10 * one, 6);
    const usual = powered(buildBaseline('usual'), table).board;
    const awake = new CycleMeter(usual);
    awake.run(10 * CYCLES_PER_MS);
    expect(awake.result().awakeShare).toBe(1);
  });
});

test('the largest tables are as large as the boards take', () => {
  expect(largest('atmega328p')).toMatchObject({ sites: { length: 16 }, lamps: { length: 64 } });
  expect(largest('atmega2560')).toMatchObject({ sites: { length: 32 }, lamps: { length: 128 } });
});

test("the README's table is put between its marks", () => {
  const readme = 'before\n<!-- bench:begin -->\nold\n<!-- bench:end -->\nafter';
  const made = '<!-- bench:begin -->\nnew\n<!-- bench:end -->';
  expect(renewed(readme, made)).toBe(`before\n${made}\nafter`);
  expect(renewed('no marks', made)).toBeNull();
});

test('a table with holes is not made, and a part that is measured anew replaces what it found before', () => {
  expect(() => benchTable({ cpu: '', cores: 2, node: '', parts: {}, results: [] })).toThrow('has not measured');
  const results = new Results([], () => {});
  for (const [part, value] of [
    ['speed', 1],
    ['tables', 2],
    ['speed', 3],
  ] as const) {
    results.begin(part);
    results.note(part, `a test of ${part}`, value, 'ms');
  }
  expect(results.list).toHaveLength(2);
  expect([results.value('speed'), results.value('tables')]).toEqual([3, 2]);
});
