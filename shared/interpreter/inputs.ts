/** Inputs of the board: debounce, overrides by the host, latched demands (PROTOCOL.md, chapter 4, step 2). */
import type { InputPin } from '../table/model.ts';

export type Press = 'auto' | 'on' | 'off';

interface InputState {
  /** What the pin says now, polarity applied. */
  raw: boolean;
  accepted: boolean;
  /** Ticks in a row that the raw level has differed. */
  differed: number;
  press: Press;
  /** The level that counts: override, else accepted. */
  level: boolean;
  /** `level` of the tick before. */
  before: boolean;
  demand: boolean;
}

/** All inputs of one board. Input numbers are board inputs; null stands for one that is not bound. */
export class Inputs {
  readonly #pins: readonly InputPin[];
  readonly #states: InputState[];
  readonly #onDemand: (input: number) => void;

  constructor(pins: readonly InputPin[], onDemand: (input: number) => void) {
    this.#pins = pins;
    this.#onDemand = onDemand;
    this.#states = pins.map(() => ({
      raw: false,
      accepted: false,
      differed: 0,
      press: 'auto',
      level: false,
      before: false,
      demand: false,
    }));
  }

  /** No demands, levels or overrides; what the pins say stays as it is. */
  start(): void {
    for (const state of this.#states) {
      const none = { accepted: false, differed: 0, press: 'auto', level: false, before: false, demand: false } as const;
      Object.assign(state, none);
    }
  }

  tick(): void {
    for (const [input, state] of this.#states.entries()) {
      if (state.raw === state.accepted) state.differed = 0;
      else {
        state.differed += 1;
        if (state.differed >= (this.#pins[input]?.debounce ?? 0)) {
          state.accepted = state.raw;
          state.differed = 0;
        }
      }
      state.before = state.level;
      state.level = state.press === 'auto' ? state.accepted : state.press === 'on';
      if (state.level) this.latch(input);
    }
  }

  /** True when further ticks change nothing until someone touches an input or a demand. */
  isSteady(): boolean {
    return this.#states.every(
      (state) => state.raw === state.accepted && state.level === state.before && (state.demand || !state.level),
    );
  }

  setRaw(input: number, active: boolean): void {
    const state = this.#states[input];
    if (state) state.raw = active;
  }

  press(input: number, press: Press): void {
    const state = this.#states[input];
    if (state) state.press = press;
  }

  level(input: number | null): boolean {
    return input !== null && this.#states[input]?.level === true;
  }

  /** Active in this tick and not in the one before. */
  rose(input: number | null): boolean {
    return input !== null && this.level(input) && this.#states[input]?.before === false;
  }

  demand(input: number | null): boolean {
    return input !== null && this.#states[input]?.demand === true;
  }

  latch(input: number | null): void {
    const state = input === null ? undefined : this.#states[input];
    if (input === null || !state || state.demand) return;
    state.demand = true;
    this.#onDemand(input);
  }

  clear(input: number | null): void {
    const state = input === null ? undefined : this.#states[input];
    if (state) state.demand = false;
  }

  get levels(): boolean[] {
    return this.#states.map((state) => state.level);
  }

  get demands(): boolean[] {
    return this.#states.map((state) => state.demand);
  }
}
