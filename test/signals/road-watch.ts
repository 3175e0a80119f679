/**
 * What must hold whatever the inputs do, watched while the reference interpreter runs: each period as long as its
 * dials say, no conflict, and every demand served within one round.
 */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import type { Interval, Row } from '../../shared/table/model.ts';

export interface Watching {
  /** Runs until `ms`, then sets an input. */
  touch(ms: number, input: number, active: boolean): void;
  /** The first things that went wrong, and how often the run went through what it is meant to prove. */
  result(): { readonly wrong: readonly string[]; readonly seen: Readonly<Record<string, number>> };
}

export type Watch = (board: CompiledBoard) => Watching;

const MOST_TOLD = 5;

abstract class SiteWatch implements Watching {
  protected readonly board: Interpreter;
  protected readonly rows: readonly Row[];
  protected readonly labels: readonly string[];
  protected readonly dials: readonly number[];
  protected row = 0;
  protected since = 0;
  private readonly compiled: CompiledBoard;
  private readonly wrong: string[] = [];
  private readonly counts = new Map<string, number>();

  constructor(compiled: CompiledBoard, counted: readonly string[]) {
    this.compiled = compiled;
    this.rows = compiled.table.programs[0]?.rows ?? [];
    this.labels = compiled.sites[0]?.rows.map((row) => row.label) ?? [];
    this.dials = compiled.table.sites[0]?.dials ?? [];
    for (const what of counted) this.counts.set(what, 0);
    this.board = new Interpreter(compiled.table, {
      row: (_, __, row) => this.entered(row),
      lamps: (_, lit) => this.shown(lit),
      demand: (_, input) => this.demanded(input),
      fault: (_, __, fault) => this.isWrong(`fault ${fault}`),
    });
    this.board.start();
  }

  touch(ms: number, input: number, active: boolean): void {
    this.board.run(ms - this.board.ran);
    this.look();
    this.board.setRaw(input, active);
  }

  result() {
    return { wrong: this.wrong, seen: Object.fromEntries(this.counts) };
  }

  /** Numbers of the lamps of a head, or of heads that begin with this name, in a colour. */
  protected lamps(label: string, colour: string): number[] {
    const lamps = this.compiled.sites[0]?.lamps ?? [];
    return lamps.flatMap((lamp) => (lamp.label === label && lamp.colour === colour ? [lamp.index] : []));
  }

  protected isWrong(what: string): void {
    if (this.wrong.length < MOST_TOLD) this.wrong.push(`${what} at ${this.board.ran} ms`);
  }

  protected saw(what: string): void {
    this.counts.set(what, (this.counts.get(what) ?? 0) + 1);
  }

  protected never(lit: readonly boolean[], ones: readonly number[], others: readonly number[], what: string): void {
    if (ones.some((lamp) => lit[lamp]) && others.some((lamp) => lit[lamp])) this.isWrong(what);
  }

  protected dial(index: number): number {
    return this.dials[index] ?? 0;
  }

  private entered(row: number): void {
    if (this.board.ran > 0) {
      const lasted = this.board.ran - this.since;
      this.kept(this.rows[this.row] as Interval, lasted);
      this.changed(this.row, row, lasted);
    }
    this.row = row;
    this.since = this.board.ran;
  }

  private kept(row: Interval, lasted: number): void {
    const [least, most] = this.limits(row);
    if (lasted < least || lasted > most) this.isWrong(`${this.labels[this.row]} lasted ${lasted} ms`);
  }

  private limits(row: Interval): readonly [number, number] {
    switch (row.op) {
      case 'after':
        return [this.dial(row.dial), this.dial(row.dial)];
      case 'until':
        return [this.dial(row.min), Number.POSITIVE_INFINITY];
      case 'untilMax':
      case 'extend':
        return [this.dial(row.min), Math.max(this.dial(row.min), this.dial(row.max))];
      case 'random':
        return [this.dial(row.low), this.dial(row.high)];
      case 'sync':
        return [this.dial(row.min), Number.POSITIVE_INFINITY];
    }
  }

  /** All intervals at their longest, an `until` at its least: one round with a demand waiting. */
  protected round(): number {
    return this.rows.reduce((sum, row) => {
      if (!('states' in row)) return sum;
      const [least, most] = this.limits(row);
      return sum + (most === Number.POSITIVE_INFINITY ? least : most);
    }, 0);
  }

  /** An interval was left for another after so many ms. */
  protected abstract changed(from: number, to: number, lasted: number): void;
  protected abstract shown(lit: readonly boolean[]): void;
  protected demanded(_input: number): void {}
  /** Between two touches. */
  protected look(): void {}
}

class CrossingWatch extends SiteWatch {
  private pending: number | null = null;
  private readonly against: readonly number[];
  private readonly figures: readonly number[];
  private readonly kerb: number;
  private readonly longest: number;

  constructor(compiled: CompiledBoard, parts: readonly string[]) {
    const near = compiled.table.inputs.length > 1;
    super(compiled, near ? ['green figure', 'dropped', 'extended', 'shortest'] : ['green figure', 'waited']);
    this.against = parts.flatMap((colour) => this.lamps('Vehicles', colour));
    this.figures = this.lamps('Pedestrians', 'green');
    this.kerb = near ? 1 : -1;
    this.longest = this.round();
  }

  protected override demanded(input: number): void {
    if (input === 0) this.pending = this.board.ran;
  }

  protected changed(_from: number, to: number, lasted: number): void {
    const [label, next] = [this.labels[this.row], this.labels[to]];
    const row = this.rows[this.row];
    if (label === 'Clearance' && row?.op === 'untilMax')
      this.saw(lasted > this.dial(row.min) ? 'extended' : 'shortest');
    if (next === 'Green figure') {
      if (this.pending === null) this.isWrong('a green figure that nobody asked for');
      else if (this.board.ran - this.pending > this.dial(0)) this.saw('waited');
      this.saw('green figure');
      this.pending = null;
    } else if (next === 'Vehicles green' && to > 0) {
      if (this.board.levels[this.kerb]) this.isWrong('a demand dropped while somebody waits');
      this.saw('dropped');
      this.pending = null;
    }
  }

  protected shown(lit: readonly boolean[]): void {
    this.never(lit, this.figures, this.against, 'a green figure against vehicles');
  }

  protected override look(): void {
    const waited = this.pending === null ? 0 : this.board.ran - this.pending;
    if (waited > this.longest) this.isWrong(`a demand waited ${waited} ms of at most ${this.longest}`);
  }
}

class LevelCrossingWatch extends SiteWatch {
  constructor(compiled: CompiledBoard) {
    super(compiled, ['trains', 'two trains at once']);
  }

  protected changed(from: number, to: number): void {
    if (to !== (from + 1) % this.rows.length) this.isWrong(`row ${to} after row ${from}`);
    if (to === 0 && this.board.levels.some(Boolean)) this.isWrong('the lights went out before a train');
    if (to === 2) this.saw('trains');
  }

  protected shown(lit: readonly boolean[]): void {
    this.never(lit, this.lamps('Road', 'amber'), this.lamps('Road', 'red'), 'amber and red');
    const reds = this.lamps('Road', 'red').filter((lamp) => lit[lamp]).length;
    if (reds > 1) this.isWrong('both reds together');
    // One of the two is always lit while they flash in turn.
    if (this.board.row(0) === 2 && reds !== 1) this.isWrong('no red while a train is near');
  }

  protected override look(): void {
    const { levels } = this.board;
    if (levels.some(Boolean) && this.row === 0) this.isWrong('dark before a train');
    if (this.row === 2 && levels.every(Boolean)) this.saw('two trains at once');
  }
}

class ShuttleWatch extends SiteWatch {
  private readonly pending: (number | null)[] = [null, null];
  private readonly ends = ['Upper end', 'Lower end'] as const;
  private readonly longest: number;

  constructor(compiled: CompiledBoard) {
    super(compiled, ['Upper end', 'Lower end', 'rests', 'ended by a gap', 'ended at the longest']);
    this.longest = this.round();
  }

  /** The end that has green in a row, or -1. */
  private greenAt(row: number): number {
    return this.ends.findIndex((name) => this.labels[row] === `${name} green`);
  }

  protected override demanded(input: number): void {
    // Who comes while it is green is through.
    if (this.greenAt(this.row) !== input) this.pending[input] ??= this.board.ran;
  }

  protected changed(from: number, to: number, lasted: number): void {
    const [left, begun] = [this.greenAt(from), this.greenAt(to)];
    const row = this.rows[from];
    if (left >= 0 && row?.op === 'extend') {
      // At its longest, those who are still coming are not: they keep their demand.
      this.pending[left] = this.board.demands[left] ? this.board.ran : null;
      this.saw(lasted < this.dial(row.max) ? 'ended by a gap' : 'ended at the longest');
    }
    const end = this.ends[begun];
    if (end !== undefined) {
      this.saw(end);
      this.pending[begun] = null;
    }
    if (to === 0) this.saw('rests');
  }

  protected shown(lit: readonly boolean[]): void {
    const moving = (end: string): number[] => [...this.lamps(end, 'green'), ...this.lamps(end, 'amber')];
    const [one, other] = this.ends;
    this.never(lit, this.lamps(one, 'green'), moving(other), 'one end against the other');
    this.never(lit, moving(one), this.lamps(other, 'green'), 'one end against the other');
  }

  protected override look(): void {
    for (const [end, since] of this.pending.entries()) {
      if (since === null || this.board.ran - since <= this.longest) continue;
      this.isWrong(`${this.ends[end]} waited ${this.board.ran - since} ms of at most ${this.longest}`);
    }
  }
}

export const watchPelican: Watch = (board) => new CrossingWatch(board, ['green']);
export const watchCrossing: Watch = (board) => new CrossingWatch(board, ['amber', 'green']);
export const watchLevelCrossing: Watch = (board) => new LevelCrossingWatch(board);
export const watchShuttle: Watch = (board) => new ShuttleWatch(board);
