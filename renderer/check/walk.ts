/** A check that steps by itself: each lamp blinks its number for a beat, then the next one without an answer. */
import { goTo } from '../../shared/lampcheck/check.ts';
import { flashesFor, lengthOf } from '../../shared/lampcheck/lit-time.ts';
import type { CheckModel } from '../model/check.ts';
import { numbersIn } from './numbers.ts';

export interface WalkHooks {
  /** Beat, s. A number that takes longer to blink twice is waited for. */
  readonly seconds: () => number;
  readonly onStep: (isProven: boolean) => void;
}

export class Walk {
  readonly #check: CheckModel;
  readonly #hooks: WalkHooks;
  #stop: () => void = () => {};

  constructor(check: CheckModel, hooks: WalkHooks) {
    this.#check = check;
    this.#hooks = hooks;
  }

  /** From the lamp at hand on; after the last one it is asked which were not right. */
  go(): void {
    const { check } = this.#check;
    const now = check.peek();
    const lit = now?.steps[now.at];
    if (!now || !lit) return;
    const number = numbersIn(now.steps).get(lit.lamp) ?? 0;
    const isProven = this.#check.isProven(lit);
    void this.#check.show(lit, flashesFor(number));
    this.#hooks.onStep(isProven);
    const ms = Math.max(this.#hooks.seconds() * 1000, isProven ? lengthOf(number) : 0);
    this.#stop = this.#check.timers.set(ms, () => {
      const next = now.steps.findIndex((it, index) => index > now.at && !now.answers.has(it.lamp));
      if (next < 0) this.#check.phase.value = 'marking';
      else {
        check.value = goTo(now, next);
        this.go();
      }
    });
  }

  stop(): void {
    this.#stop();
  }
}
