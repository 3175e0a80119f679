/** Lights the lamp of a check: steadily, or flash by flash, each ended by the board itself. */
import type { Flash } from '../../shared/lampcheck/lit-time.ts';

export interface Timers {
  /** Gives back what stops it. */
  set(ms: number, then: () => void): () => void;
}

/** False when the board did not do it. */
type Light = (lamp: number | null, forMs: number) => Promise<boolean>;

export class CheckLight {
  readonly #light: Light;
  readonly #timers: Timers;
  /** Counts up with each lamp: what was begun for an earlier one no longer counts. */
  #turn = 0;
  #stop: () => void = () => {};

  constructor(light: Light, timers: Timers) {
    this.#light = light;
    this.#timers = timers;
  }

  /** With flashes: again and again until another lamp is lit or all are dark. Is done when the lamp is lit first. */
  async show(lamp: number, flashes: readonly Flash[] | null): Promise<boolean> {
    const turn = this.#next();
    if (flashes === null) return this.#light(lamp, 0);
    return this.#flash(turn, lamp, flashes, 0);
  }

  async dark(): Promise<void> {
    this.#next();
    await this.#light(null, 0);
  }

  /** Nothing more is asked; what is lit stays as it is. */
  stop(): void {
    this.#next();
  }

  #next(): number {
    this.#stop();
    this.#stop = () => {};
    this.#turn += 1;
    return this.#turn;
  }

  async #flash(turn: number, lamp: number, flashes: readonly Flash[], at: number): Promise<boolean> {
    const flash = flashes[at % flashes.length];
    if (!flash) return true;
    const done = await this.#light(lamp, flash.lit);
    if (!done || turn !== this.#turn) return done;
    this.#stop = this.#timers.set(flash.lit + flash.dark, () => void this.#flash(turn, lamp, flashes, at + 1));
    return true;
  }
}
