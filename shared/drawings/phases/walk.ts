/**
 * The rows of one cycle of a program, in the order in which they come when
 * somebody waits everywhere: every demand is there anew at the end of each
 * interval, trains and other levels come and go as the rows wait for them.
 */
import type { Condition, Interval, Program } from '../../table/model.ts';
import { isInterval } from '../../table/rows.ts';

export interface Walk {
  /** Numbers of interval rows. */
  readonly rows: readonly number[];
  /**
   * cycle: round and round; once: from the start to a row that stays for ever;
   * list: in order of the table, because what comes when depends on inputs alone.
   */
  readonly is: 'cycle' | 'once' | 'list';
}

/** Far beyond the 255 rows of a program, for programs that never come back. */
const MOST_STEPS = 2000;

/** `isBound` says for each program input whether there is one on the board. */
export function walkCycle(program: Program, start: number, isBound: (input: number) => boolean): Walk {
  const all = program.rows.flatMap((row, index) => (isInterval(row) ? [index] : []));
  const rows = repeated(program, start, isBound);
  // A site that would show one thing for ever while others wait for a level (a railway signal) shows all of them.
  if (looks(program, rows) < 2 && looks(program, all) > 1) return { rows: all, is: 'list' };
  const last = program.rows[rows.at(-1) ?? 0];
  if (last !== undefined && isInterval(last) && staysForEver(last)) return { rows, is: 'once' };
  const first = rows.indexOf(Math.min(...rows));
  return { rows: [...rows.slice(first), ...rows.slice(0, first)], is: 'cycle' };
}

/** How many different things the rows show. */
function looks(program: Program, rows: readonly number[]): number {
  const shown = rows
    .map((index) => program.rows[index])
    .map((row) => (row && isInterval(row) ? row.states.join() : ''));
  return new Set(shown).size;
}

function repeated(program: Program, start: number, isBound: (input: number) => boolean): number[] {
  const inputs = program.inputs.map((_, input) => input);
  const demands = new Set(inputs.filter(isBound));
  const levels = new Set<number>();
  const seen = new Map<string, number>();
  const rows: number[] = [];
  let at = start;
  for (let step = 0; step < MOST_STEPS; step++) {
    const row = program.rows[at];
    if (row === undefined) return rows;
    const next = at + 1 < program.rows.length ? at + 1 : 0;
    if (isInterval(row)) {
      const state = `${at} ${[...levels].sort().join(' ')}`;
      const before = seen.get(state);
      if (before !== undefined) return rows.slice(before);
      seen.set(state, rows.length);
      rows.push(at);
      if (staysForEver(row)) return rows;
      leave(row, levels, isBound);
      for (const input of inputs) if (isBound(input)) demands.add(input);
      at = next;
    } else if (row.op === 'jump') {
      at = holds(row.when, demands, levels) ? row.to : next;
    } else {
      for (const input of row.inputs) {
        if (row.op === 'clear') demands.delete(input);
        else if (isBound(input)) demands.add(input);
      }
      at = next;
    }
  }
  return rows;
}

/** Waits for an input of an empty list, which never comes (firmware/PROTOCOL.md, chapter 2). */
export function staysForEver(row: Interval): boolean {
  if (row.op !== 'until' || row.when.kind === 'chance') return false;
  return ['demand', 'active', 'changed', 'notAll'].includes(row.when.kind) && row.when.inputs.length === 0;
}

/** The levels are what the row waited for. */
function leave(row: Interval, levels: Set<number>, isBound: (input: number) => boolean): void {
  if (row.op !== 'until' && row.op !== 'untilMax') return;
  if (row.when.kind === 'chance') return;
  for (const input of row.when.inputs) {
    if (row.when.kind === 'active' || row.when.kind === 'allActive') {
      if (isBound(input)) levels.add(input);
    } else if (row.when.kind === 'inactive' || row.when.kind === 'notAll') levels.delete(input);
  }
}

function holds(when: Condition, demands: ReadonlySet<number>, levels: ReadonlySet<number>): boolean {
  // A chance is drawn as not taken: the rows go on.
  if (when.kind === 'chance') return false;
  const { kind, inputs } = when;
  switch (kind) {
    case 'demand':
      return inputs.some((input) => demands.has(input));
    case 'noDemand':
      return !inputs.some((input) => demands.has(input));
    case 'active':
      return inputs.some((input) => levels.has(input));
    case 'inactive':
      return !inputs.some((input) => levels.has(input));
    case 'allActive':
      return inputs.every((input) => levels.has(input));
    case 'notAll':
      return !inputs.every((input) => levels.has(input));
    case 'changed':
      return false;
  }
}
