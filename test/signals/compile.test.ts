/** What the compiler makes of boards, shared programs, groups and switches. */
import { describe, expect, it } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { checkTable } from '../../shared/table/check.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { chainOf, type Edits, edited, type Loose, smallLayout } from '../layout/small.ts';

function tableOf(edits: Edits, layout: Loose = smallLayout()): BoardTable {
  const { layout: good, findings } = readLayout(edited(layout, edits));
  expect(findings).toEqual([]);
  if (good === null) throw new Error('not a layout');
  const { boards, findings: more } = compileLayout(good);
  expect(more.filter((it) => it.severity === 'error')).toEqual([]);
  const table = boards[0]?.table;
  if (table === undefined) throw new Error('no board');
  expect(checkTable(table)).toEqual([]);
  return table;
}

/** The junction of the small layout again, on other pins. */
function secondJunction(first: number, more: object = {}): Loose {
  const site = smallLayout().sites[0];
  for (const [index, phase] of site.phases.entries()) {
    for (const [at, colour] of ['red', 'amber', 'green'].entries()) {
      phase.lamps[colour] = { bit: first + index * 3 + at };
    }
  }
  return { ...site, id: `cross-${first}`, name: `Cross ${first}`, ...more };
}

describe('programs', () => {
  it('are shared by junctions of the same shape, whatever their times', () => {
    const other = secondJunction(0, {
      stages: [
        { id: '1', phases: ['A'], green: 40 },
        { id: 'x', phases: ['B'], green: 9 },
      ],
    });
    const table = tableOf({ 'sites.2': other, 'boards.0.chain': chainOf(1) });
    expect(table.sites.map((site) => site.program)).toEqual([0, 1, 0]);
    expect(table.sites.map((site) => site.dials[0])).toEqual([18000, 750, 40000]);
  });

  it('are not shared when a limit differs, because the board keeps limits by program', () => {
    const other = secondJunction(0);
    other.phases[0].minGreen = 8;
    expect(tableOf({ 'sites.2': other, 'boards.0.chain': chainOf(1) }).programs).toHaveLength(3);
  });

  it('watch greens of conflicting phases, head by head', () => {
    const own = { green: { pin: 'D10' } };
    const table = tableOf({ 'sites.0.heads.0.lamps': own });
    expect(table.programs[0]?.lamps).toEqual(['A red', 'A amber', 'A green', 'A green', 'B red', 'B amber', 'B green']);
    expect(table.programs[0]?.conflicts).toEqual([
      [2, 6],
      [3, 6],
    ]);
  });

  it('go dark after a fault in the UK and flash red in the USA; safe is red in both', () => {
    const uk = tableOf({}).programs[0];
    expect([uk?.fault, uk?.safe]).toEqual([Array(6).fill('dark'), ['lit', 'dark', 'dark', 'lit', 'dark', 'dark']]);
    const usa = tableOf({ practice: 'usa-today', 'sites.0.intergreens': undefined }).programs[0];
    expect(usa?.fault).toEqual(['flash', 'dark', 'dark', 'flash', 'dark', 'dark']);
    expect(usa?.rows).toHaveLength(6);
    expect(usa?.safe).toEqual(uk?.safe);
  });
});

describe('beacons', () => {
  it('flash together or in turn', () => {
    expect(tableOf({}).programs[1]?.rows).toMatchObject([{ states: ['flash', 'flash'] }]);
    expect(tableOf({ 'sites.1.flash': 'alternate' }).programs[1]?.rows).toMatchObject([
      { states: ['flash', 'alternate'] },
    ]);
  });

  it('change every 750 ms for a whole minute', () => {
    const changes: string[] = [];
    const table = tableOf({
      'sites.1.flash': 'alternate',
      'sites.0': smallLayout().sites[1],
      sites: [{ ...smallLayout().sites[1], flash: 'alternate' }],
    });
    const interpreter = new Interpreter(table, {
      lamps: (ms, lit) => changes.push(`${ms} ${lit.map(Number).join('')}`),
    });
    interpreter.start(0);
    interpreter.run(60000);
    expect(changes.slice(0, 4)).toEqual(['1 10', '751 01', '1501 10', '2251 01']);
    expect(changes).toHaveLength(80);
    expect(changes.at(-1)).toBe(`${79 * 750 + 1} 01`);
  });
});

describe('boards', () => {
  it('number pins by name or by number, on both chips', () => {
    const beacons = (a: string | number, b: string | number) => ({
      'sites.1.beacons.0.pin': a,
      'sites.1.beacons.1.pin': b,
    });
    const outputs = (table: BoardTable) => table.lamps.slice(6).map((lamp) => lamp.output);
    expect(outputs(tableOf(beacons('a5', 8)))).toEqual([19, 8]);
    expect(outputs(tableOf({ ...beacons('A15', 'D53'), 'boards.0.chip': 'atmega2560' }))).toEqual([69, 53]);
  });

  it('carry chain, switches, inputs, indicators, brightness and night in whole numbers', () => {
    const table = tableOf({
      'boards.0.chain': { ...chainOf(2), enable: 'A5' },
      'boards.0.nightLevel': 40,
      'boards.0.sweep': 0.25,
      'boards.0.switches': { night: 'dusk' },
      'sites.0.atNight': 'dark',
      'sites.1.beacons.0': { id: 'left', bit: 15, activeLow: true, source: 'smallFilament', brightness: 50 },
      inputs: [
        { id: 'dusk', name: 'Dusk', board: 'b1', pin: 'A2', pullUp: false, debounce: 0.1, indicator: { pin: 'A3' } },
      ],
    });
    expect(table.chain).toEqual({ chips: 2, data: 8, clock: 11, latch: 12, enable: 19 });
    expect([table.nightLevel, table.sweep, table.nightInput, table.offInput]).toEqual([102, 250, 0, null]);
    expect(table.sites[0]?.atNight).toBe('dark');
    expect(table.lamps[6]).toMatchObject({ output: 143, activeLow: true, type: 'smallFilament', brightness: 16 });
    expect(table.inputs).toEqual([
      { name: 'Dusk', pin: 16, activeLow: true, pullUp: false, debounce: 100, indicator: 8 },
    ]);
  });

  it('are compiled each on its own, and left out when something on them is wrong', () => {
    const two = edited(smallLayout(), {
      'boards.1': { id: 'b2', name: 'Board 2', chip: 'atmega2560' },
      'sites.1.board': 'b2',
    });
    const good = readLayout(two).layout;
    expect(good && compileLayout(good).boards.map((board) => [board.id, board.sites.length])).toEqual([
      ['b1', 1],
      ['b2', 1],
    ]);
    const bad = readLayout(edited(two, { 'sites.1.beacons.0.pin': 'D1' })).layout;
    expect(bad && compileLayout(bad).boards.map((board) => board.id)).toEqual(['b1']);
  });
});

describe('a common cycle', () => {
  it('brings two junctions to stage 1 at their offsets, from the first cycle on', () => {
    const groups = [{ id: 'g', name: 'Street', board: 'b1', cycle: 45 }];
    const other = secondJunction(0, { group: 'g', offset: 20 });
    const edits = { groups, 'sites.2': other, 'sites.0.group': 'g', 'boards.0.chain': chainOf(1) };
    const table = tableOf(edits);
    // Its red with amber ends 5 s after its offset: there stage 1 begins.
    expect(table.sites.map((site) => site.offset)).toEqual([5000, 0, 25000]);
    const begins: string[] = [];
    const interpreter = new Interpreter(table, {
      row: (ms, site, row) => {
        if (row === 4) begins.push(`${site} ${ms}`);
      },
    });
    interpreter.start(0);
    interpreter.run(140000);
    // Row 4 begins the change to stage 1; the cycle begins at 1 ms, the first tick.
    expect(begins).toEqual(['0 45001', '2 65001', '0 90001', '2 110001', '0 135001']);
  });
});
