import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { seededDice } from '../fixtures/dice.ts';
import { perform, randomScript, type ScriptStep } from '../fixtures/random-script.ts';
import { anyTable, randomTable } from '../fixtures/random-table.ts';

/** Everything that happens, with its time since `start`; `advance` makes time pass. */
function story(
  table: BoardTable,
  script: readonly ScriptStep[],
  start: number,
  advance: (board: Interpreter, ms: number) => void,
) {
  const told: string[] = [];
  const tell = (ms: number, text: string) => told.push(`${(ms - start) >>> 0} ${text}`);
  const board = new Interpreter(table, {
    lamps: (ms, lit) => tell(ms, `lamps ${lit.map(Number).join('')}`),
    row: (ms, site, row) => tell(ms, `row ${site} ${row}`),
    demand: (ms, input) => tell(ms, `demand ${input}`),
    fault: (ms, site, fault) => tell(ms, `fault ${site} ${fault}`),
  });
  board.start(start);
  for (const { wait, acts } of script) {
    advance(board, wait);
    for (const act of acts) perform(board, act);
  }
  advance(board, 2000);
  told.push(
    `end ${(board.now - start) >>> 0} ${table.sites.map((_, site) => `${board.row(site)} ${board.elapsed(site)}`)}`,
  );
  return told;
}

const striding = (board: Interpreter, ms: number) => board.run(ms);
function ticking(board: Interpreter, ms: number): void {
  for (let tick = 0; tick < ms; tick += 1) board.tick();
}

it('running in strides tells the same story as tick by tick', () => {
  for (let seed = 1; seed <= 60; seed += 1) {
    const dice = seededDice(seed);
    const table = randomTable(dice, 'atmega328p');
    const script = randomScript(dice, table);
    expect(story(table, script, 0, striding), `seed ${seed}`).toEqual(story(table, script, 0, ticking));
  }
});

it('the wrap of the board time changes nothing', () => {
  for (let seed = 1; seed <= 60; seed += 1) {
    const dice = seededDice(seed);
    const table = randomTable(dice, 'atmega2560');
    const script = randomScript(dice, table);
    expect(story(table, script, 2 ** 32 - 5000, striding), `seed ${seed}`).toEqual(story(table, script, 0, striding));
  }
});

it('a table that is started twice does the same twice', () => {
  fc.assert(
    fc.property(anyTable('atmega328p'), (table) => {
      const lit: string[][] = [];
      const board = new Interpreter(table, { lamps: (ms, lamps) => lit.at(-1)?.push(`${ms} ${lamps.map(Number)}`) });
      for (let round = 0; round < 2; round += 1) {
        lit.push([]);
        board.start();
        board.run(10_000);
      }
      expect(lit[1]).toEqual(lit[0]);
    }),
    { numRuns: 20 },
  );
});
