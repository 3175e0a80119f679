/**
 * What was done and can be undone, newest first: one history for times on the
 * boards and for the layout, so that steps are always taken back in the state in
 * which they were made.
 */
import { signal } from '@preact/signals';

export interface Step {
  /** False when it could not be done; it then stays where it is. */
  undo(): Promise<boolean>;
  redo(): Promise<boolean>;
}

export class History {
  readonly canUndo = signal(false);
  readonly canRedo = signal(false);
  #done: Step[] = [];
  #undone: Step[] = [];

  get newest(): Step | null {
    return this.#done.at(-1) ?? null;
  }

  add(step: Step): void {
    this.#done.push(step);
    this.#undone = [];
    this.#tell();
  }

  /** The newest step went on: the two are taken back together. */
  replaceNewest(step: Step): void {
    this.#done.pop();
    this.add(step);
  }

  async undo(): Promise<void> {
    await this.#move(this.#done, this.#undone, (step) => step.undo());
  }

  async redo(): Promise<void> {
    await this.#move(this.#undone, this.#done, (step) => step.redo());
  }

  clear(): void {
    this.#done = [];
    this.#undone = [];
    this.#tell();
  }

  async #move(from: Step[], to: Step[], go: (step: Step) => Promise<boolean>): Promise<void> {
    const step = from.pop();
    if (!step) return;
    to.push(step);
    this.#tell();
    if ((await go(step)) || to.at(-1) !== step) return;
    to.pop();
    from.push(step);
    this.#tell();
  }

  #tell(): void {
    this.canUndo.value = this.#done.length > 0;
    this.canRedo.value = this.#undone.length > 0;
  }
}
