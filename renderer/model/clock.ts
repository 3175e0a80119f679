/**
 * The board's time between two reports of it. Board time is a 32-bit count of
 * ms; wall time is any steady count of ms that the panel is given.
 */

const RANGE = 2 ** 32;
/** Without a report for this long the board's time is no longer guessed, ms of wall time. */
const SILENCE = 3_000;
/** A guess that ran ahead by more than this is taken back, ms of wall time. */
const PATIENCE = 1_000;

/** `a` minus `b` on the 32-bit circle, -2^31 to 2^31 - 1. */
export function since(a: number, b: number): number {
  return (a - b) | 0;
}

export class BoardClock {
  #ms = 0;
  #wall = 0;
  #pace = 0;
  /** Null until anything has been heard. */
  #shown: number | null = null;

  /** A report of the board's time now and of its pace, board ms for each ms. */
  report(ms: number, wall: number, pace: number): void {
    this.#anchor(ms, wall);
    this.#pace = pace;
  }

  /** Something happened at this board time, so it is now or later. */
  note(ms: number, wall: number): void {
    if (since(ms, this.#guess(wall)) > 0) this.#anchor(ms, wall);
  }

  /** The board may have started anew: its time may go back. */
  reset(ms: number, wall: number): void {
    this.#anchor(ms, wall);
    this.#shown = this.#ms;
  }

  /** Stands still until the next report. */
  stop(wall: number): void {
    this.reset(this.at(wall), wall);
    this.#pace = 0;
  }

  get pace(): number {
    return this.#pace;
  }

  /** Board time at a wall time, ms. Small corrections hold it back rather than turn it back. */
  at(wall: number): number {
    const guess = this.#guess(wall);
    const ahead = this.#shown === null ? 1 : since(guess, this.#shown);
    if (this.#shown === null || ahead > 0 || ahead < -PATIENCE * Math.max(1, this.#pace)) this.#shown = guess;
    return this.#shown;
  }

  #anchor(ms: number, wall: number): void {
    this.#ms = ms >>> 0;
    this.#wall = wall;
  }

  #guess(wall: number): number {
    const passed = Math.min(SILENCE, Math.max(0, wall - this.#wall));
    return Math.floor((this.#ms + passed * this.#pace) % RANGE);
  }
}
