/**
 * The worst moment of a board as the reference interpreter finds it: somebody presses, steps, holds, pauses, nudges
 * and starts sites again at random, and every moment is looked at. Knows nothing of how the worst case is worked out.
 */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { BoardTable, Program, SiteBinding } from '../../shared/table/model.ts';
import { chance, type Dice, pick } from '../fixtures/dice.ts';

/** Tables in which some of the sites are stuck from the start, and so at their fault aspect: every choice of sites. */
export function withFaults(table: BoardTable): BoardTable[] {
  return Array.from({ length: 2 ** table.sites.length }, (_, stuck) => {
    const programs: Program[] = [...table.programs];
    const sites = table.sites.map((site, index): SiteBinding => {
      const program = table.programs[site.program];
      if (program === undefined || (stuck & (1 << index)) === 0) return site;
      const end = program.rows.length;
      const forEver = { op: 'jump', when: { kind: 'noDemand', inputs: [] }, to: end } as const;
      programs.push({ ...program, rows: [...program.rows, forEver] });
      return { ...site, program: programs.length - 1, start: end };
    });
    return { ...table, programs, sites };
  });
}

/** Calls `look` at every moment, so many things done; stops early when it says true. */
export function wander(
  dice: Dice,
  table: BoardTable,
  things: number,
  look: (lit: readonly boolean[]) => boolean,
): boolean {
  let isOver = false;
  const listener = {
    lamps: (_: number, lit: readonly boolean[]) => {
      isOver ||= look(lit);
    },
  };
  const boards = withFaults(table).map((variant) => new Interpreter(variant, listener));
  for (const board of boards) board.start();
  for (let thing = 0; thing < things && !isOver; thing += 1) {
    // Mostly the sound one.
    const board = chance(dice, 50) ? boards[0] : pick(dice, boards);
    if (board === undefined) return false;
    doSomething(dice, board);
    board.run(chance(dice, 70) ? dice.int(1, 3) : dice.int(1, 2000));
  }
  return isOver;
}

function doSomething(dice: Dice, board: Interpreter): void {
  const { table } = board;
  const site = dice.int(0, table.sites.length - 1);
  const what = dice.int(0, 99);
  board.override('all', 'auto');
  if (what < 45) board.step(site);
  else if (what < 60) board.hold(site, chance(dice, 60));
  else if (what < 75 && table.inputs.length > 0) {
    board.press(dice.int(0, table.inputs.length - 1), pick(dice, ['on', 'off', 'off'] as const));
  } else if (what < 78) board.again(chance(dice, 70) ? site : undefined);
  else if (what < 80) catchFirst(board, site);
  else if (what < 82) chance(dice, 25) ? board.pause() : board.runOn();
  else if (what < 88) board.setMaster(pick(dice, ['run', 'run', 'run', 'night', 'safe', 'off'] as const));
  else if (what < 94) nudge(dice, board, site);
  else if (what < 98) {
    board.start();
    board.run(1);
    // Everything at its first moment, sync pulses too, until somebody goes on.
    if (chance(dice, 50)) board.pause();
  } else {
    board.override('all', 'off');
    board.override(dice.int(0, Math.max(0, table.lamps.length - 1)), 'on');
  }
}

/** The first interval of a site, as it begins. */
function catchFirst(board: Interpreter, site: number): void {
  board.runOn();
  board.hold(site, false);
  board.again(site);
  board.run((board.table.sites[site]?.offset ?? 0) + 1);
  board.hold(site, true);
}

function nudge(dice: Dice, board: Interpreter, site: number): void {
  const binding = board.table.sites[site];
  const program = binding === undefined ? undefined : board.table.programs[binding.program];
  if (program === undefined || program.dials.length === 0) return;
  const dial = dice.int(0, program.dials.length - 1);
  const limits = program.dials[dial];
  if (limits !== undefined) board.setDial(site, dial, pick(dice, [limits.min, Math.min(limits.max, limits.min + 200)]));
}
