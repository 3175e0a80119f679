/** One random table and script, told by the reference interpreter and as commands for the firmware's core. */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { FAULTS } from '../../shared/link/vocabulary.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { seededDice } from '../fixtures/dice.ts';
import { perform, randomScript, type ScriptAct, type ScriptStep } from '../fixtures/random-script.ts';
import { randomTable } from '../fixtures/random-table.ts';
import { hexOf } from './core-process.ts';

export interface Case {
  readonly seed: number;
  readonly table: BoardTable;
  readonly script: readonly ScriptStep[];
  /** Board time of the start, ms: sometimes just before the wrap. */
  readonly start: number;
}

export function makeCase(seed: number, chip: Chip): Case {
  const dice = seededDice(seed);
  const table = randomTable(dice, chip);
  const script = randomScript(dice, table);
  return { seed, table, script, start: dice.int(0, 3) === 0 ? 2 ** 32 - dice.int(1, 4000) : dice.int(0, 100_000) };
}

/** An act as a command of the harness. */
function command(act: ScriptAct): string {
  switch (act.act) {
    case 'raw':
      return `raw ${act.input} ${Number(act.active)}`;
    case 'press':
      return `ask press ${act.input} ${act.to}`;
    case 'dial':
      return `ask dial ${act.site} ${act.dial} ${act.ms}`;
    case 'cycle':
      return `ask dial ${128 + act.group} 0 ${act.ms}`;
    case 'hold':
      return `ask hold ${act.site} ${Number(act.held)}`;
    case 'step':
      return `ask step ${act.site}`;
    case 'again':
      return act.site === null ? 'ask again' : `ask again ${act.site}`;
    case 'pause':
    case 'run':
      return `ask ${act.act}`;
    case 'lamp':
      return `ask lamp ${act.lamp} ${act.to}`;
    case 'master':
      return `ask master ${act.to}`;
  }
}

const TAIL_MS = 500;

export function commands({ table, script, start }: Case): string[] {
  const { bytes } = encodeTable(table);
  if (!bytes) throw new Error('no image');
  return [
    `table ${hexOf(bytes)} ${start}`,
    'company 1',
    ...script.flatMap(({ wait, acts }) => [`run ${wait}`, ...acts.map(command)]),
    `run ${TAIL_MS}`,
    ...table.sites.map((_, site) => `ask site ${site}`),
    'ask snap',
  ];
}

/** Bits as the protocol writes them: one digit for each four, at least one. */
function digits(bits: readonly boolean[]): string {
  const groups = Math.max(1, Math.ceil(bits.length / 4));
  const digit = (group: number) => [8, 4, 2, 1].reduce((sum, bit, at) => sum + (bits[4 * group + 3 - at] ? bit : 0), 0);
  return Array.from({ length: groups }, (_, group) =>
    digit(groups - 1 - group)
      .toString(16)
      .toUpperCase(),
  ).join('');
}

/** What the reference interpreter says, in the words of the harness; answers without number and CRC. */
export function reference({ table, script, start }: Case): string[] {
  const told: string[] = [];
  const board: Interpreter = new Interpreter(table, {
    lamps: (ms, lit) => told.push(`t ${ms} ${digits(lit)}`),
    row: (ms, site, row) => told.push(`r ${ms} ${site} ${row}`),
    fault: (ms, site, fault) => told.push(`f ${ms} ${site} ${FAULTS.find(({ key }) => key === fault)?.code}`),
  });
  board.start(start);
  for (const { wait, acts } of script) {
    board.run(wait);
    for (const act of acts) {
      const value = perform(board, act);
      if (act.act !== 'raw') told.push(value === undefined ? '> ok' : value === null ? '> no 4' : `> ok ${value}`);
    }
  }
  board.run(TAIL_MS);
  for (const site of table.sites.keys()) {
    const fault = FAULTS.find(({ key }) => key === board.fault(site))?.code;
    told.push(`> ok ${board.row(site)} ${fault ? '-' : board.elapsed(site)} ${fault}`);
  }
  told.push(`> ok ${board.now} ${digits(board.lit)} ${digits(board.demands)} ${board.master}`);
  return told;
}

/** The harness's lines in the same form: no numbers, CRCs and reasons, no flags. */
export function printed(lines: readonly string[]): string[] {
  return lines.flatMap((line) => {
    const answer = /^> =.. (ok|no)(.*) [0-9A-F]{4}$/.exec(line);
    if (!answer) return /^> !/.test(line) ? [] : [line];
    const [, outcome, rest = ''] = answer;
    if (outcome === 'no') return [`> no ${rest.split(' ')[1]}`];
    const fields = rest.trim().split(' ').filter(Boolean);
    // A snapshot of a site, its flags left out; at a fault the elapsed time has no meaning.
    if (fields.length === 4) return [`> ok ${fields[0]} ${fields[3] === '0' ? fields[1] : '-'} ${fields[3]}`];
    // A snapshot of the board, its flags left out.
    if (fields.length === 5) fields.pop();
    return [['> ok', ...fields].join(' ')];
  });
}
