/** The common cycle of a group (PROTOCOL.md, chapter 4, step 4). */
import { SYNC_PULSE_MS } from '../table/format.ts';

export class GroupClock {
  /** Cycle in force, ms. */
  cycle: number;
  /** Place in the cycle, ms. */
  time = 0;
  #old = 0;
  #isAnew = false;
  #isMoving = false;

  constructor(cycle: number) {
    this.cycle = cycle;
    this.start();
  }

  /** The first tick begins the cycle. */
  start(): void {
    this.time = this.cycle - 1;
    this.#isMoving = false;
  }

  /** One ms; `pulse` is the input's debounce in the tick of a rising edge, else null. */
  tick(pulse: number | null): void {
    this.#old = this.time;
    this.#isMoving = true;
    if (pulse !== null) {
      this.#isAnew = 2 * this.time >= this.cycle;
      this.time = pulse;
      return;
    }
    this.#isAnew = this.time + 1 >= this.cycle;
    this.time = this.#isAnew ? 0 : this.time + 1;
  }

  /** The group stands still: no offset is passed. */
  stand(): void {
    this.#isMoving = false;
  }

  /** Whether this tick passed an offset, ms. */
  passed(offset: number): boolean {
    if (!this.#isMoving) return false;
    if (this.#isAnew) return offset > this.#old || offset <= this.time || offset >= this.cycle;
    return offset > this.#old && offset <= this.time;
  }

  get isPulsing(): boolean {
    return this.time < SYNC_PULSE_MS;
  }

  /** Ticks until the pulse ends or the cycle begins anew, at least 1. */
  ticksToEvent(): number {
    return Math.max(1, this.isPulsing ? Math.min(SYNC_PULSE_MS, this.cycle) - this.time : this.cycle - this.time);
  }

  /** Ticks until an offset may be passed, at least 1, without pulses from outside. */
  ticksToPass(offset: number): number {
    return Math.max(1, offset > this.time && offset < this.cycle ? offset - this.time : this.cycle - this.time);
  }

  /** Ticks that pass no event. */
  skip(ticks: number): void {
    this.time += ticks;
  }
}
