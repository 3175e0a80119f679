/**
 * Which intervals a site can show at all, whatever is pressed, nudged, held or stepped.
 *
 * A moment of a site is its row and, for each board input that its program names, the level and the latched demand.
 * An active level latches its demand each ms (PROTOCOL.md, chapter 4, step 2), so a level is never active without
 * one. While an interval runs, demands come and none goes: only rows of programs clear them. An interval can be left
 * at any moment, since the host can step a site. All that follows in the same ms is followed exactly: each pair of
 * levels and demands takes one way through jumps, clear and latch, chance takes both.
 */
import { type Action, type BoardTable, type Condition, type Interval, isInterval, type Program } from './tables.ts';

export interface Reached {
  /** Numbers of the rows of intervals, ascending. */
  readonly rows: readonly number[];
  /** False: the rows may be too many, never too few. */
  readonly isExact: boolean;
}

/** More inputs than this and the ways through the rows are no longer followed one by one. */
const MOST_INPUTS = 6;

/** Transitions that a site makes within one ms before it is stuck (PROTOCOL.md, chapter 4, step 5). */
const MOST_STEPS = 16;

export function reachedRows(table: BoardTable, site: number): Reached {
  const binding = table.sites[site];
  const program = binding === undefined ? undefined : table.programs[binding.program];
  if (binding === undefined || program === undefined) return { rows: [], isExact: true };
  const bits = inputBits(program, binding.inputs);
  const bound = [...new Set(bits.filter((bit) => bit >= 0))];
  if (bound.length > MOST_INPUTS) return { rows: anyWay(program, binding.start), isExact: false };
  const used = new Set(binding.inputs.filter((input, at) => input !== null && (bits[at] ?? -1) >= 0));
  const isAlone = table.sites.every((other, at) => at === site || !other.inputs.some((input) => used.has(input)));
  return { rows: new Walk(program, bits, bound.length, isAlone).from(binding.start), isExact: isAlone };
}

/** For each input of the program a bit, the same one for the same board input; -1 where it is bound to none or never asked for. */
function inputBits(program: Program, inputs: readonly (number | null)[]): number[] {
  const named = new Set(program.rows.flatMap((row) => inputsOf(row)));
  const board: number[] = [];
  return program.inputs.map((_, at) => {
    const input = inputs[at] ?? null;
    if (input === null || !named.has(at)) return -1;
    const known = board.indexOf(input);
    return known >= 0 ? known : board.push(input) - 1;
  });
}

function inputsOf(row: Program['rows'][number]): readonly number[] {
  if ('inputs' in row) return row.inputs;
  if ('detectors' in row) return row.detectors;
  return 'when' in row && row.when.kind !== 'chance' ? row.when.inputs : [];
}

class Walk {
  readonly #program: Program;
  readonly #bits: readonly number[];
  readonly #all: number;
  /** Nobody else clears demands of these inputs. */
  readonly #isAlone: boolean;
  readonly #shown = new Set<number>();
  /** Row and demands at which an interval was entered. */
  readonly #entered: [row: number, demands: number][] = [];
  readonly #seen = new Set<number>();
  readonly #left = new Set<number>();

  constructor(program: Program, bits: readonly number[], inputs: number, isAlone: boolean) {
    this.#program = program;
    this.#bits = bits;
    this.#all = (1 << inputs) - 1;
    this.#isAlone = isAlone;
  }

  from(start: number): number[] {
    // The host can start a site again while anything is pressed.
    for (let demands = 0; demands <= this.#all; demands += 1) {
      for (let levels = demands; ; levels = (levels - 1) & demands) {
        this.#follow(start, demands, levels, 0);
        if (levels === 0) break;
      }
    }
    for (let next = this.#entered.pop(); next !== undefined; next = this.#entered.pop()) this.#leave(...next);
    return [...this.#shown].sort((a, b) => a - b);
  }

  /** Everything that can follow an interval that was entered with some demands latched. */
  #leave(row: number, entered: number): void {
    const interval = this.#program.rows[row];
    const detectors = interval !== undefined && 'detectors' in interval ? this.#mask(interval.detectors) : 0;
    for (let demands = 0; demands <= this.#all; demands += 1) {
      if (this.#isAlone && (demands & entered) !== entered) continue;
      for (let levels = demands; ; levels = (levels - 1) & demands) {
        if (this.#isNew(this.#left, row, demands, levels)) {
          // Stepped; or a green that ended by itself: its detectors are forgotten, or latched where it was cut off.
          const after = new Set([demands, demands & ~detectors, demands | detectors]);
          for (const left of after) this.#follow(this.#after(row), left, levels, 1);
        }
        if (levels === 0) break;
      }
    }
  }

  /** Rows that take no time, up to the interval that stays; too many of them and the site is stuck instead. */
  #follow(at: number, demands: number, levels: number, made: number): void {
    let todo: [number, number][] = [[at, demands]];
    const seen = new Set<number>();
    for (let step = made; todo.length > 0; step += 1) {
      const next: [number, number][] = [];
      for (const [place, latched] of todo) {
        const row = this.#program.rows[place];
        if (row === undefined || !this.#isNew(seen, place, latched, 0)) continue;
        if (isInterval(row) && !this.#endsAtOnce(row, latched, levels)) this.#enter(place, latched);
        else if (step < MOST_STEPS) {
          next.push(
            ...(isInterval(row)
              ? [[this.#after(place), latched] as [number, number]]
              : this.#act(row, place, latched, levels)),
          );
        }
      }
      todo = next;
    }
  }

  #act(row: Action, place: number, latched: number, levels: number): [number, number][] {
    const after = this.#after(place);
    if (row.op === 'clear') return [[after, latched & ~this.#mask(row.inputs)]];
    if (row.op === 'latch') return [[after, latched | this.#mask(row.inputs)]];
    const holds = this.#holds(row.when, latched, levels);
    if (holds === 'both')
      return [
        [row.to, latched],
        [after, latched],
      ];
    return [[holds ? row.to : after, latched]];
  }

  #enter(row: number, demands: number): void {
    this.#shown.add(row);
    if (this.#isNew(this.#seen, row, demands, 0)) this.#entered.push([row, demands]);
  }

  /** An interval whose dials cannot be turned above zero and that need not wait: it is over before it shows. */
  #endsAtOnce(row: Interval, demands: number, levels: number): boolean {
    const most = (dial: number): number => this.#program.dials[dial]?.max ?? 0;
    if (row.op !== 'until' && row.op !== 'untilMax') return false;
    if (most(row.min) > 0) return false;
    // Levels are those of the row's begin, so none has changed.
    if (row.when.kind !== 'changed' && this.#holds(row.when, demands, levels) === true) return true;
    return row.op === 'untilMax' && most(row.max) === 0;
  }

  #holds(when: Condition, demands: number, levels: number): boolean | 'both' {
    if (when.kind === 'chance') return when.outOf256 === 0 ? false : 'both';
    const mask = this.#mask(when.inputs);
    const isUnbound = when.inputs.some((input) => (this.#bits[input] ?? -1) < 0);
    switch (when.kind) {
      case 'demand':
        return (demands & mask) !== 0;
      case 'noDemand':
        return (demands & mask) === 0;
      case 'active':
        return (levels & mask) !== 0;
      case 'inactive':
        return (levels & mask) === 0;
      case 'allActive':
        return !isUnbound && (levels & mask) === mask;
      case 'notAll':
        return isUnbound || (levels & mask) !== mask;
      case 'changed':
        return 'both';
    }
  }

  #mask(inputs: readonly number[]): number {
    return inputs.reduce((mask, input) => {
      const bit = this.#bits[input] ?? -1;
      return bit < 0 ? mask : mask | (1 << bit);
    }, 0);
  }

  #after(row: number): number {
    return row + 1 < this.#program.rows.length ? row + 1 : 0;
  }

  #isNew(seen: Set<number>, row: number, demands: number, levels: number): boolean {
    const key = (row * (this.#all + 1) + demands) * (this.#all + 1) + levels;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  }
}

/** Without a look at conditions: every jump may be taken or not. */
function anyWay(program: Program, start: number): number[] {
  const seen = new Set<number>();
  const todo = [start];
  for (let at = todo.pop(); at !== undefined; at = todo.pop()) {
    const row = program.rows[at];
    if (row === undefined || seen.has(at)) continue;
    seen.add(at);
    todo.push(at + 1 < program.rows.length ? at + 1 : 0);
    if (row.op === 'jump') todo.push(row.to);
  }
  return [...seen].filter((at) => isInterval(program.rows[at] as Program['rows'][number])).sort((a, b) => a - b);
}
