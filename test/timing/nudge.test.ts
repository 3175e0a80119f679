import { expect, test } from 'vitest';
import { penmarrowBoard, withoutSweep } from './example.ts';
import { CYCLES_PER_MS, type Edge, Rig } from './rig.ts';

const board = penmarrowBoard();
const table = withoutSweep(board.table);
const MARKET_CROSS = 0;
const GREEN_A = 2;

function dial(site: number, id: string): number {
  const index = board.sites[site]?.dials.findIndex((it) => it.id === id) ?? -1;
  if (index < 0) throw new Error(`no dial ${id}`);
  return index;
}

function started(): { rig: Rig; start: number } {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(1000);
  return { rig, start: rig.edges[0]?.cycles ?? 0 };
}

const edgeOf = (edges: readonly Edge[], lamp: number, lit: boolean): Edge | undefined =>
  edges.find((edge) => edge.lamp === lamp && edge.lit === lit);

test('a longer green moves the running deadline and nothing else', () => {
  const { rig, start } = started();
  rig.runMs(9000);
  rig.takeEdges();
  expect(rig.ask('dial', MARKET_CROSS, dial(MARKET_CROSS, 'green-1'), 20_500)).toBe('ok 20500');
  rig.runMs(42_000);
  const end = edgeOf(rig.edges, GREEN_A, false);
  expect(((end?.cycles ?? 0) - start) / CYCLES_PER_MS).toBeCloseTo(20_500, 0);
  // The next green begins a whole cycle of 42 s, and the 2.5 s, after the first.
  const next = edgeOf(rig.edges, GREEN_A, true);
  expect(((next?.cycles ?? 0) - start) / CYCLES_PER_MS).toBeCloseTo(44_500, 0);
});

test('a green that has already lasted longer than its new time ends within 10 ms of the last byte', () => {
  const { rig } = started();
  rig.runMs(14_000);
  rig.takeEdges();
  expect(rig.ask('dial', MARKET_CROSS, dial(MARKET_CROSS, 'green-1'), 9000)).toBe('ok 9000');
  rig.runMs(100);
  const end = edgeOf(rig.edges, GREEN_A, false);
  expect(end).toBeDefined();
  expect(((end?.cycles ?? 0) - rig.lastByteIn) / CYCLES_PER_MS).toBeGreaterThan(0);
  expect(((end?.cycles ?? 0) - rig.lastByteIn) / CYCLES_PER_MS).toBeLessThan(10);
});

test('a time under the minimum is refused and the running green is not shortened', () => {
  const { rig, start } = started();
  const index = dial(MARKET_CROSS, 'green-1');
  const least = table.programs[table.sites[MARKET_CROSS]?.program ?? 0]?.dials[index]?.min ?? 0;
  expect(least).toBeGreaterThan(0);
  expect(rig.ask('dial', MARKET_CROSS, index, least - 10)).toBe('no 4 -');
  expect(rig.ask('dial', MARKET_CROSS, index, least)).toBe(`ok ${least}`);
  rig.runMs(20_000);
  const end = edgeOf(rig.edges, GREEN_A, false);
  expect(((end?.cycles ?? 0) - start) / CYCLES_PER_MS).toBeGreaterThan(least - 1);
});

test('a nudge of one site leaves the other sites alone, also where their times are equal', () => {
  const { rig } = started();
  rig.runMs(1000);
  const before = rig.ask('dial', 1, dial(1, 'amber'));
  expect(rig.ask('dial', MARKET_CROSS, dial(MARKET_CROSS, 'amber'), 4000)).toBe('ok 4000');
  expect(rig.ask('dial', 1, dial(1, 'amber'))).toBe(before);
});
