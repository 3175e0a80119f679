/** Another layout is opened: a step of undo like any other, for the host remembers what was open before as it was left. */
import type { DocumentState, Outcome } from '../../shared/workbench/contract.ts';
import type { History } from './history.ts';

type Opened = Pick<DocumentState, 'name' | 'opened'>;

export class Openings {
  readonly #history: History;
  readonly #turnBack: (to: number) => Promise<Outcome<null>>;
  /** Numbers of openings that undo asked for. */
  readonly #asked = new Set<number>();
  #isFresh = true;

  constructor(history: History, turnBack: (to: number) => Promise<Outcome<null>>) {
    this.#history = history;
    this.#turnBack = turnBack;
  }

  /** Another host: it knows nothing of what was open here. */
  forget(): void {
    this.#isFresh = true;
  }

  hear(before: Opened | null, next: Opened): void {
    const isFresh = this.#isFresh;
    this.#isFresh = false;
    if (this.#asked.has(next.opened)) return;
    if (before === null || isFresh) {
      this.#history.clear();
      return;
    }
    this.#history.add({
      what: `Opened ${next.name}.`,
      undo: () => this.#turn(before.opened),
      redo: () => this.#turn(next.opened),
    });
  }

  async #turn(to: number): Promise<boolean> {
    this.#asked.add(to);
    const outcome = await this.#turnBack(to);
    this.#asked.delete(to);
    // Nothing below this step can be reached any more.
    if (!outcome.ok && outcome.problem.code === 'notOpenBefore') this.#history.clear();
    return outcome.ok;
  }
}
