/**
 * One site and its rows (PROTOCOL.md, chapter 4, step 5). Where the document
 * speaks of marks and differences, this counts elapsed times up, so that no
 * counter can wrap; the two must come to the same.
 */
import { FAULT_RETURN, MAX_STEPS } from '../table/format.ts';
import type { Action, Condition, Interval, Program, Row, SiteBinding } from '../table/model.ts';
import { isAction, isInterval } from '../table/rows.ts';
import { Extension } from './extension.ts';
import { drawnTime, Generator } from './generator.ts';
import type { GroupClock } from './group-clock.ts';
import type { Inputs } from './inputs.ts';

export type Fault = 'none' | 'conflict' | 'stuck';

export interface SiteEvents {
  row(site: number, row: number): void;
  fault(site: number, fault: Fault): void;
  /** It starts by itself after a fault. */
  back(site: number): void;
}

/** Elapsed times stop here, ms. */
const ELAPSED_MAX = 2 ** 31 - 1;
const NEVER = Number.POSITIVE_INFINITY;

export class Site {
  readonly index: number;
  readonly binding: SiteBinding;
  readonly program: Program;
  /** Dials in force, ms. */
  readonly dials: number[];
  row = 0;
  /** Since the row began, ms; negative before a delayed start. */
  elapsed = 0;
  fault: Fault = 'none';
  held = false;
  stepped = false;

  readonly #inputs: Inputs;
  readonly #group: GroupClock | null;
  readonly #events: SiteEvents;
  #generator: Generator;
  readonly #extension = new Extension();
  /** Levels of the program's inputs when the row began. */
  #levels: boolean[] = [];
  /** Draw of a random row; its time follows the dials. */
  #draw = 0;
  /** At a fault: since it came, ms; and how often the site has come back by itself in this span. */
  #sinceFault = 0;
  #returns = 0;

  constructor(
    index: number,
    parts: { binding: SiteBinding; program: Program; inputs: Inputs; group: GroupClock | null; events: SiteEvents },
  ) {
    this.index = index;
    this.binding = parts.binding;
    this.program = parts.program;
    this.dials = [...parts.binding.dials];
    this.#inputs = parts.inputs;
    this.#group = parts.group;
    this.#events = parts.events;
    this.#generator = new Generator(index);
  }

  /** As after a start of the board: the seed anew, not held. Dials keep their values. */
  reset(): void {
    this.#generator = new Generator(this.index);
    this.held = false;
  }

  get stays(): boolean {
    return this.fault !== 'none' && this.#returns === FAULT_RETURN.times;
  }

  /** A new span: unless it stays, the site may come back by itself anew. */
  forgive(): void {
    if (!this.stays) this.#returns = 0;
  }

  /** As asked for by a host. */
  again(): void {
    this.#returns = 0;
    this.start();
  }

  /** Enters the start row, delayed by the offset; actions on the way are done at once. */
  start(): void {
    this.fault = 'none';
    this.stepped = false;
    this.#goTo(this.binding.start);
    let row = this.#current;
    for (let transitions = 0; row && isAction(row); transitions += 1) {
      if (transitions === MAX_STEPS) {
        this.breach('stuck');
        return;
      }
      this.#act(row);
      row = this.#current;
    }
    this.elapsed = 0 - this.binding.offset;
    this.#extension.enter(this.binding.offset);
  }

  /** Before its delayed start. */
  get isWaiting(): boolean {
    return this.fault === 'none' && this.elapsed < 0;
  }

  /** The running interval, or null at a fault. */
  get interval(): Interval | null {
    const row = this.#current;
    return this.fault === 'none' && row && isInterval(row) ? row : null;
  }

  /** At a fault it shows its safe aspect for a while before it starts by itself. */
  get isClearing(): boolean {
    return this.#sinceFault >= FAULT_RETURN.show && !this.stays;
  }

  breach(fault: Fault): void {
    this.fault = fault;
    this.#sinceFault = 0;
    this.#events.fault(this.index, fault);
  }

  /** One ms. `paused` is the whole board's. */
  tick(paused: boolean): void {
    const isStepped = this.stepped;
    this.stepped = false;
    if (this.fault !== 'none') {
      this.#atFault(paused);
      return;
    }
    if (this.isStill(paused) && !isStepped) return;
    this.skip(1);
    if (isStepped) {
      this.#next();
      this.#settle(1);
    } else if (this.elapsed >= 0) this.#settle(0);
  }

  #atFault(paused: boolean): void {
    this.#sinceFault += 1;
    if (this.#sinceFault < FAULT_RETURN.show + FAULT_RETURN.clear) return;
    if (this.stays || this.isStill(paused)) return;
    this.#returns += 1;
    this.start();
    this.#events.back(this.index);
  }

  isStill(paused: boolean): boolean {
    return paused || this.held;
  }

  /** Time goes by without a look at the row. */
  skip(ticks: number): void {
    if (this.fault !== 'none') {
      this.#sinceFault += ticks;
      return;
    }
    this.elapsed = Math.min(ELAPSED_MAX, this.elapsed + ticks);
    this.#extension.skip(ticks);
  }

  /** The first of the coming ticks (1, 2 ...) in which something can happen if inputs, demands and dials stay. */
  ticksToEvent(): number {
    if (this.fault !== 'none') {
      if (this.stays) return NEVER;
      const next = [FAULT_RETURN.show, FAULT_RETURN.show + FAULT_RETURN.clear].find((ms) => ms > this.#sinceFault);
      return (next ?? this.#sinceFault + 1) - this.#sinceFault;
    }
    const row = this.interval;
    if (!row) return NEVER;
    if (this.elapsed < 0) return -this.elapsed;
    return Math.max(1, this.#deadline(row) - this.elapsed);
  }

  /** The elapsed time at which a row can end or change its mind at the earliest, ms. */
  #deadline(row: Interval): number {
    switch (row.op) {
      case 'after':
        return this.#dial(row.dial);
      case 'random':
        return drawnTime(this.#draw, this.#dial(row.low), this.#dial(row.high));
      case 'until':
        return this.#holds(row.when) ? this.#dial(row.min) : NEVER;
      case 'untilMax':
        return this.#holds(row.when) ? this.#dial(row.min) : Math.max(this.#dial(row.min), this.#dial(row.max));
      case 'extend': {
        // A site further down may have latched or cleared a demand after the last look.
        if (this.#isOpposed(row.opposing) !== this.#extension.isOpposed) return this.elapsed + 1;
        const next = this.elapsed + this.#extension.ticksToEvent(this.#dial(row.gap), this.#dial(row.max));
        const min = this.#dial(row.min);
        return this.#extension.isOver(this.#dial(row.max)) ? min : this.elapsed < min ? Math.min(min, next) : next;
      }
      case 'sync':
        return this.elapsed + (this.#group?.ticksToPass(this.#dial(row.offset)) ?? NEVER);
    }
  }

  get #current(): Row | undefined {
    return this.program.rows[this.row];
  }

  #dial(dial: number): number {
    return this.dials[dial] ?? 0;
  }

  #next(): void {
    this.#goTo(this.row + 1 < this.program.rows.length ? this.row + 1 : 0);
  }

  #goTo(to: number): void {
    this.row = to;
    const row = this.#current;
    if (!row || isAction(row)) return;
    this.elapsed = 0;
    this.#extension.enter(0);
    this.#levels = this.binding.inputs.map((input) => this.#inputs.level(input));
    if (row.op === 'random') this.#draw = this.#generator.next();
    this.#events.row(this.index, to);
  }

  /** Does actions and leaves intervals until one stays; `made` transitions of this tick were made before. */
  #settle(made: number): void {
    for (let transitions = made; ; transitions += 1) {
      const row = this.#current;
      if (!row || (isInterval(row) && !this.#isOver(row))) return;
      if (transitions === MAX_STEPS) {
        this.breach('stuck');
        return;
      }
      if (isInterval(row)) this.#leave(row);
      else this.#act(row);
    }
  }

  #isOver(row: Interval): boolean {
    switch (row.op) {
      case 'after':
      case 'random':
        return this.elapsed >= this.#deadline(row);
      case 'until':
        return this.elapsed >= this.#dial(row.min) && this.#holds(row.when);
      case 'untilMax':
        return this.elapsed >= this.#dial(row.min) && (this.#holds(row.when) || this.elapsed >= this.#dial(row.max));
      case 'extend': {
        const isDetecting = row.detectors.some((input) => this.#inputs.level(this.#bound(input)));
        this.#extension.look(isDetecting, this.#isOpposed(row.opposing), this.#dial(row.gap));
        return this.elapsed >= this.#dial(row.min) && this.#extension.isOver(this.#dial(row.max));
      }
      case 'sync':
        return this.elapsed >= this.#dial(row.min) && this.#group?.passed(this.#dial(row.offset)) === true;
    }
  }

  #isOpposed(opposing: readonly number[]): boolean {
    return opposing.length === 0 || opposing.some((input) => this.#inputs.demand(this.#bound(input)));
  }

  #leave(row: Interval): void {
    if (row.op === 'extend') {
      for (const input of row.detectors) {
        // Traffic cut off by the maximum must not be forgotten.
        if (this.#extension.hasLapsed) this.#inputs.clear(this.#bound(input));
        else this.#inputs.latch(this.#bound(input));
      }
    }
    this.#next();
  }

  #act(row: Action): void {
    if (row.op === 'clear') for (const input of row.inputs) this.#inputs.clear(this.#bound(input));
    if (row.op === 'latch') for (const input of row.inputs) this.#inputs.latch(this.#bound(input));
    if (row.op === 'jump' && this.#holds(row.when)) this.#goTo(row.to);
    else this.#next();
  }

  /** The board input of a program input, or null when it is not bound. */
  #bound(input: number): number | null {
    return this.binding.inputs[input] ?? null;
  }

  #holds(when: Condition): boolean {
    if (when.kind === 'chance') return this.#generator.chance(when.outOf256);
    const isActive = (input: number) => this.#inputs.level(this.#bound(input));
    const isDemanded = (input: number) => this.#inputs.demand(this.#bound(input));
    switch (when.kind) {
      case 'demand':
        return when.inputs.some(isDemanded);
      case 'noDemand':
        return !when.inputs.some(isDemanded);
      case 'active':
        return when.inputs.some(isActive);
      case 'inactive':
        return !when.inputs.some(isActive);
      case 'changed':
        return when.inputs.some((input) => isActive(input) !== (this.#levels[input] ?? false));
      case 'allActive':
        return when.inputs.every(isActive);
      case 'notAll':
        return !when.inputs.every(isActive);
    }
  }
}
