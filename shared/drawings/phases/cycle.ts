/** One cycle as rows along time. All times in ms. */
import type { Interval, LampState, Program } from '../../table/model.ts';
import { isInterval } from '../../table/rows.ts';
import { staysForEver, walkCycle } from './walk.ts';

export interface CycleRow {
  /** Number of the row in the program. */
  readonly row: number;
  /** From the start of the cycle to the row's least length. */
  readonly from: number;
  readonly to: number;
  /** What may make it longer than drawn. */
  readonly wait: Wait | null;
  /** The dial that `to - from` is the value of; null where it follows from a common cycle. */
  readonly dial: number | null;
  readonly states: readonly LampState[];
}

export interface Wait {
  readonly is: 'input' | 'extension' | 'chance' | 'common-cycle' | 'for-ever';
  /** Kind of condition, where it waits for inputs. */
  readonly kind: 'demand' | 'noDemand' | 'active' | 'inactive' | 'changed' | 'allActive' | 'notAll' | null;
  /** Program inputs. */
  readonly inputs: readonly number[];
  /** At most so much longer than drawn; null without an end. */
  readonly most: number | null;
}

export interface Cycle {
  readonly rows: readonly CycleRow[];
  readonly total: number;
  /**
   * cycle: one after the other, round and round; once: up to a row that stays
   * for ever; list: in order of the table, each when its inputs say so; flash:
   * one row without an end, drawn as two of its flashes.
   */
  readonly is: 'cycle' | 'once' | 'list' | 'flash';
}

export interface CycleSource {
  readonly program: Program;
  readonly start: number;
  /** ms, one for each dial. */
  readonly dials: readonly number[];
  /** Board input of each program input, null where none is bound. */
  readonly inputs: readonly (number | null)[];
  /** Length of the common cycle, ms; null without one. */
  readonly common: number | null;
}

export function cycleOf(source: CycleSource): Cycle {
  const { program } = source;
  const walk = walkCycle(program, source.start, (input) => (source.inputs[input] ?? null) !== null);
  const intervals = walk.rows.flatMap((index) => {
    const row = program.rows[index];
    return row !== undefined && isInterval(row) ? [{ index, row }] : [];
  });
  const [only] = intervals;
  if (intervals.length === 1 && only !== undefined && staysForEver(only.row)) return standing(source, only);
  const lengths = spans(intervals, source);
  let at = 0;
  const rows = intervals.map(({ index, row }, place): CycleRow => {
    const from = at;
    at += lengths[place] ?? 0;
    const fixed = row.op === 'sync' && source.common !== null;
    return {
      row: index,
      from,
      to: at,
      wait: fixed ? null : waitOf(row, source.dials),
      dial: fixed ? null : dialOf(row),
      states: row.states,
    };
  });
  return { rows, total: at, is: walk.is };
}

/** Lit and dark part of a flash, ms. */
export function flashParts(program: Program, dials: readonly number[]): readonly [number, number] {
  const { flash } = program;
  return flash === null ? [500, 500] : [dials[flash.on] ?? 500, dials[flash.off] ?? 500];
}

/** A row that never ends: two of its flashes, part by part, or just a while where nothing flashes. */
function standing(source: CycleSource, only: { readonly index: number; readonly row: Interval }): Cycle {
  const { states } = only.row;
  const wait: Wait = { is: 'for-ever', kind: null, inputs: [], most: null };
  if (states.every((state) => state === 'lit' || state === 'dark')) {
    return { rows: [{ row: only.index, from: 0, to: 0, wait, dial: null, states }], total: 0, is: 'once' };
  }
  const [on, off] = flashParts(source.program, source.dials);
  const { flash } = source.program;
  const part = (from: number, to: number, lit: LampState, dial: number | null): CycleRow => ({
    row: only.index,
    from,
    to,
    wait: null,
    dial,
    states: states.map((state) => (state === 'lit' || state === lit ? 'lit' : 'dark')),
  });
  const rows = [0, on + off].flatMap((begin) => [
    part(begin, begin + on, 'flash', begin === 0 && flash !== null ? flash.on : null),
    part(begin + on, begin + on + off, 'alternate', begin === 0 && flash !== null ? flash.off : null),
  ]);
  return { rows, total: 2 * (on + off), is: 'flash' };
}

function dialOf(row: Interval): number {
  if (row.op === 'after') return row.dial;
  return row.op === 'random' ? row.low : row.min;
}

/** Least lengths; a row that waits for the common cycle gets what is left of it. */
function spans(intervals: readonly { readonly row: Interval }[], source: CycleSource): number[] {
  const dial = (index: number): number => source.dials[index] ?? 0;
  const least = intervals.map(({ row }) => dial(dialOf(row)));
  const { common } = source;
  const points = intervals.flatMap(({ row }, place) => (row.op === 'sync' ? [place] : []));
  if (common === null || common <= 0) return least;
  points.forEach((place, index) => {
    const before = points[(index + points.length - 1) % points.length] ?? place;
    const offset = (of: number): number => {
      const row = intervals[of]?.row;
      return row?.op === 'sync' ? dial(row.offset) % common : 0;
    };
    let between = 0;
    for (let at = (before + 1) % least.length; at !== place; at = (at + 1) % least.length) between += least[at] ?? 0;
    const entered = (offset(before) + between) % common;
    let length = (offset(place) - entered + common) % common;
    // Its point of the cycle goes by before the minimum is over, or as it begins: it waits for the next one.
    const needed = Math.max(1, dial(dialOf(intervals[place]?.row as Interval)));
    while (length < needed) length += common;
    least[place] = length;
  });
  return least;
}

function waitOf(row: Interval, dials: readonly number[]): Wait | null {
  const over = (least: number, most: number): number => Math.max(0, (dials[most] ?? 0) - (dials[least] ?? 0));
  switch (row.op) {
    case 'after':
      return null;
    case 'random':
      return { is: 'chance', kind: null, inputs: [], most: over(row.low, row.high) };
    case 'sync':
      return { is: 'common-cycle', kind: null, inputs: [], most: null };
    case 'extend':
      return { is: 'extension', kind: null, inputs: row.detectors, most: over(row.min, row.max) };
    case 'until':
    case 'untilMax': {
      if (staysForEver(row)) return { is: 'for-ever', kind: null, inputs: [], most: null };
      const { when } = row;
      const inputs = 'inputs' in when ? when.inputs : [];
      // noDemand, inactive and allActive of nothing hold at once.
      if (inputs.length === 0 && row.op === 'until') return null;
      const kind = when.kind === 'chance' ? null : when.kind;
      return { is: 'input', kind, inputs, most: row.op === 'untilMax' ? over(row.min, row.max) : null };
    }
  }
}
