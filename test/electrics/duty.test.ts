/** For how much of the time lamps are lit, against the reference interpreter running for hours. */
import { describe, expect, it } from 'vitest';
import { dutyOf } from '../../shared/electrics/shown/duty.ts';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { compiled, example } from './layouts.ts';

/** Share of `hours` for which each lamp was lit. */
function measured(table: BoardTable, hours: number): number[] {
  const lit = table.lamps.map(() => 0);
  const since: (number | null)[] = table.lamps.map(() => null);
  const whole = hours * 3_600_000;
  const board = new Interpreter(table, {
    lamps: (ms, now) => {
      for (const [lamp, isLit] of now.entries()) {
        const from = since[lamp] ?? null;
        if (isLit && from === null) since[lamp] = ms;
        if (isLit || from === null) continue;
        lit[lamp] = (lit[lamp] ?? 0) + ms - from;
        since[lamp] = null;
      }
    },
  });
  board.start();
  board.run(whole);
  return lit.map((ms, lamp) => (ms + (since[lamp] == null ? 0 : whole - (since[lamp] ?? 0))) / whole);
}

function expectLike(table: BoardTable, hours: number): void {
  const { lit } = dutyOf(table);
  const found = measured(table, hours);
  for (const [lamp, share] of lit.entries()) {
    expect(Math.abs(share - (found[lamp] ?? -1)), `${table.lamps[lamp]?.name}: ${share}, ${found[lamp]}`).toBeLessThan(
      0.005,
    );
  }
}

describe('by the planned times', () => {
  it.each(['penmarrow', 'elm-and-third'] as const)('%s', (name) => {
    const { boards } = example(name);
    for (const { table } of boards) {
      expect(dutyOf(table).basis).toBe('cycle');
      expectLike(table, 4);
    }
  });

  it('a crossing by time, beacons, a common cycle with its sync output', () => {
    const { board } = compiled(
      [
        {
          kind: 'pelican',
          id: 'p',
          name: 'P',
          board: 'b',
          vehicles: { red: { pin: 'D2' }, amber: { pin: 'D3' }, green: { pin: 'D4' } },
          pedestrians: { red: { pin: 'D5' }, green: { pin: 'D6' } },
        },
        {
          kind: 'beacons',
          id: 'v',
          name: 'V',
          board: 'b',
          lamps: [
            { id: 'a', pin: 'D7' },
            { id: 'b', pin: 'D8' },
          ],
        },
        {
          kind: 'junction',
          id: 'j',
          name: 'J',
          board: 'b',
          group: 'g',
          offset: 7,
          phases: [
            { id: 'A', name: 'A', lamps: { red: { pin: 'D9' }, amber: { pin: 'D10' }, green: { pin: 'D11' } } },
            { id: 'B', name: 'B', lamps: { red: { pin: 'A0' }, amber: { pin: 'A1' }, green: { pin: 'A2' } } },
          ],
          stages: [
            { id: '1', phases: ['A'], green: 20 },
            { id: '2', phases: ['B'], green: 15 },
          ],
        },
      ],
      { groups: [{ id: 'g', name: 'G', board: 'b', cycle: 60, syncOut: { pin: 'A3' } }] },
    );
    expect(dutyOf(board.table).basis).toBe('cycle');
    expectLike(board.table, 3);
  });
});

describe('where chance or people have a say', () => {
  it('takes the middle of random times', () => {
    const lights = { amber: { pin: 'D2' }, left: { pin: 'D3' }, right: { pin: 'D4' } };
    const { board } = compiled([{ kind: 'level-crossing', id: 'l', name: 'L', board: 'b', lights }]);
    expect(dutyOf(board.table).basis).toBe('busy');
    expectLike(board.table, 120);
  });

  it('says so, and takes a crossing with a button as busy', () => {
    const { board } = compiled(
      [
        {
          kind: 'pelican',
          id: 'p',
          name: 'P',
          board: 'b',
          vehicles: { red: { pin: 'D2' }, amber: { pin: 'D3' }, green: { pin: 'D4' } },
          pedestrians: { red: { pin: 'D5' }, green: { pin: 'D6' } },
          buttons: ['button'],
        },
      ],
      { inputs: [{ id: 'button', name: 'Button', board: 'b', pin: 'D8', indicator: { pin: 'D9' } }] },
    );
    const { lit, basis } = dutyOf(board.table);
    expect(basis).toBe('busy');
    const [red, , green, stop, go] = lit;
    // At rest the vehicles would have green for ever, and the figure would never be lit.
    expect(green).toBeLessThan(0.9);
    expect(red).toBeGreaterThan(0.1);
    expect((stop ?? 0) + (go ?? 0)).toBeLessThanOrEqual(1);
    expect(go).toBeGreaterThan(0.1);
    // Indicators are left dark.
    expect(lit.at(-1)).toBe(0);
  });
});
