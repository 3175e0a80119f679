/**
 * For how much of the time each lamp of a board is lit, 0 to 1, from one walk through the rows of each site at the
 * planned times. Where a site waits for somebody, it is taken as busy: every demand is there, every wait is as short
 * as it may be, no level is active. Chance comes as often as it should. Full brightness; indicators stay dark.
 */
import {
  type Action,
  type BoardTable,
  type Condition,
  type Interval,
  isInterval,
  type Program,
  type SiteBinding,
} from './tables.ts';

/** cycle: every time of the walk is planned; busy: some are the least ones, or the middle of a random time. */
export type DutyBasis = 'cycle' | 'busy';

export interface Duty {
  /** For each lamp of the table. */
  readonly lit: readonly number[];
  readonly basis: DutyBasis;
}

/** Defaults of the board image, ms: PROTOCOL.md, chapters 2 and 4. */
const FLASH = 500;
const SYNC_PULSE = 200;
/** Long enough for chance to even out; a walk that comes round ends there. */
const MOST_INTERVALS = 2000;
/** Rows without an interval between them: the site is stuck and shows its fault. */
const MOST_ACTIONS = 64;

export function dutyOf(table: BoardTable): Duty {
  let basis: DutyBasis = 'cycle';
  const lit = table.lamps.map(() => 0);
  let first = 0;
  for (const binding of table.sites) {
    const program = table.programs[binding.program];
    if (program === undefined) continue;
    const walk = new Walk(program, binding, binding.group === null ? null : (table.groups[binding.group] ?? null));
    walk.go();
    if (walk.isGuessed) basis = 'busy';
    for (const [lamp, share] of walk.shares().entries()) lit[first + lamp] = share;
    first += program.lamps.length;
  }
  for (const { syncOut, cycle } of table.groups) {
    if (syncOut === null || syncOut < first) continue;
    lit[syncOut] = Math.max(lit[syncOut] ?? 0, Math.min(1, SYNC_PULSE / cycle.value));
  }
  return { lit, basis };
}

class Walk {
  isGuessed = false;
  readonly #program: Program;
  readonly #binding: SiteBinding;
  readonly #cycle: number | null;
  readonly #chances = new Map<number, number>();
  readonly #spent: { readonly row: Interval; readonly at: number; ms: number }[] = [];

  constructor(program: Program, binding: SiteBinding, group: BoardTable['groups'][number] | null) {
    this.#program = program;
    this.#binding = binding;
    this.#cycle = group?.cycle.value ?? null;
  }

  go(): void {
    const hasChance = this.#program.rows.some((row) => row.op === 'jump' && row.when.kind === 'chance');
    const seen = new Map<number, number>();
    let at = this.#binding.start;
    for (let actions = 0; this.#spent.length < MOST_INTERVALS && actions < MOST_ACTIONS; ) {
      const row = this.#program.rows[at];
      if (row === undefined) return;
      if (!isInterval(row)) {
        actions += 1;
        at = this.#act(row, at);
        continue;
      }
      actions = 0;
      const before = seen.get(at);
      if (before !== undefined && !hasChance) {
        // Only the round counts, not the way into it.
        this.#spent.splice(0, before);
        this.#fillCycle();
        return;
      }
      if (row.op === 'until' && this.#isConstant(row.when) && !this.#jumps(row.when, at)) {
        // Nothing ends it: sooner or later the site is always here.
        this.#spent.splice(0, this.#spent.length, { row, at, ms: 1 });
        return;
      }
      seen.set(at, this.#spent.length);
      this.#spent.push({ row, at, ms: this.#length(row) });
      at = this.#after(at);
    }
  }

  /** One sync row waits until the common cycle is full. */
  #fillCycle(): void {
    const syncs = this.#spent.filter(({ row }) => row.op === 'sync');
    const [only] = syncs;
    if (only === undefined || this.#cycle === null) return;
    const others = this.#spent.reduce((sum, it) => (it === only ? sum : sum + it.ms), 0);
    if (syncs.length > 1) this.isGuessed = true;
    // A round that is longer than the cycle takes two of them, and so on.
    const rounds = Math.max(1, Math.ceil((others + only.ms) / this.#cycle));
    only.ms = Math.max(only.ms, rounds * this.#cycle - others);
  }

  shares(): number[] {
    const whole = this.#spent.reduce((sum, { ms }) => sum + ms, 0);
    const { flash, fault, lamps } = this.#program;
    const on = flash === null ? FLASH : this.#dial(flash.on);
    const off = flash === null ? FLASH : this.#dial(flash.off);
    const shareOf = { dark: 0, lit: 1, flash: on / (on + off), alternate: off / (on + off) };
    return lamps.map((_, lamp) => {
      if (whole === 0) return shareOf[fault[lamp] ?? 'dark'];
      return this.#spent.reduce((sum, { row, ms }) => sum + ms * shareOf[row.states[lamp] ?? 'dark'], 0) / whole;
    });
  }

  #length(row: Interval): number {
    if (row.op === 'after') return this.#dial(row.dial);
    if (row.op === 'sync') return this.#dial(row.min);
    if (row.op === 'until' && this.#isConstant(row.when)) return this.#dial(row.min);
    this.isGuessed = true;
    if (row.op === 'random') return (this.#dial(row.low) + Math.max(this.#dial(row.low), this.#dial(row.high))) / 2;
    return this.#dial(row.min);
  }

  #act(row: Action, at: number): number {
    if (row.op !== 'jump') return this.#after(at);
    return this.#jumps(row.when, at) ? row.to : this.#after(at);
  }

  /** No input has a say in it. */
  #isConstant(when: Condition): boolean {
    return when.kind !== 'chance' && when.inputs.every((input) => (this.#binding.inputs[input] ?? null) === null);
  }

  #jumps(when: Condition, at: number): boolean {
    if (when.kind === 'chance') {
      this.isGuessed = true;
      const sum = (this.#chances.get(at) ?? 0) + when.outOf256;
      this.#chances.set(at, sum % 256);
      return sum >= 256;
    }
    const bound = when.inputs.filter((input) => (this.#binding.inputs[input] ?? null) !== null);
    if (bound.length > 0) this.isGuessed = true;
    if (when.kind === 'demand') return bound.length > 0;
    if (when.kind === 'noDemand') return bound.length === 0;
    if (when.kind === 'inactive') return true;
    if (when.kind === 'allActive') return when.inputs.length === 0;
    return when.kind === 'notAll' && when.inputs.length > 0;
  }

  #dial(dial: number): number {
    return this.#binding.dials[dial] ?? 0;
  }

  #after(row: number): number {
    return row + 1 < this.#program.rows.length ? row + 1 : 0;
  }
}
