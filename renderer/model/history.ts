/**
 * What was done and can be undone, newest first: one history for times on the
 * boards and for the layout, so that steps are always taken back in the state in
 * which they were made.
 */
import { computed, signal } from '@preact/signals';

export interface Step {
  /** One line in the past tense, such as "Added the pelican Quay Hill."; absent where nobody can say. */
  readonly what?: string;
  /** False when it could not be done; it then stays where it is. */
  undo(): Promise<boolean>;
  redo(): Promise<boolean>;
}

export class History {
  /** What can be undone, the newest last. */
  readonly done = signal<readonly Step[]>([]);
  /** What can be done again, the next one last. */
  readonly undone = signal<readonly Step[]>([]);
  readonly canUndo = computed(() => this.done.value.length > 0);
  readonly canRedo = computed(() => this.undone.value.length > 0);
  /** Within a sentence: "added the pelican Quay Hill"; null: nothing to undo, or nobody can say. */
  readonly undoWhat = computed(() => inSentence(this.done.value.at(-1)));
  readonly redoWhat = computed(() => inSentence(this.undone.value.at(-1)));

  /** What is being done and not a step yet. */
  readonly #coming = new Set<Promise<unknown>>();

  /**
   * Does what becomes a step when the host has answered; null: it did not. An undo that is asked for meanwhile waits,
   * and takes this one back.
   */
  async take(work: () => Promise<Step | null>): Promise<boolean> {
    const going = work().then((step) => {
      if (step) this.add(step);
      return step !== null;
    });
    this.#coming.add(going);
    try {
      return await going;
    } finally {
      this.#coming.delete(going);
    }
  }

  get newest(): Step | null {
    return this.done.peek().at(-1) ?? null;
  }

  add(step: Step): void {
    this.done.value = [...this.done.peek(), step];
    this.undone.value = [];
  }

  /** The newest step went on: the two are taken back together. */
  replaceNewest(step: Step): void {
    this.done.value = this.done.peek().slice(0, -1);
    this.add(step);
  }

  async undo(): Promise<void> {
    await this.#move(this.done, this.undone, (step) => step.undo());
  }

  async redo(): Promise<void> {
    await this.#move(this.undone, this.done, (step) => step.redo());
  }

  clear(): void {
    this.done.value = [];
    this.undone.value = [];
  }

  async #move(from: History['done'], to: History['done'], go: (step: Step) => Promise<boolean>): Promise<void> {
    while (this.#coming.size > 0) await Promise.allSettled([...this.#coming]);
    const step = from.peek().at(-1);
    if (!step) return;
    from.value = from.peek().slice(0, -1);
    to.value = [...to.peek(), step];
    if ((await go(step)) || to.peek().at(-1) !== step) return;
    to.value = to.peek().slice(0, -1);
    from.value = [...from.peek(), step];
  }
}

/** A line of the log as the end of "Undo: …"; a name at its beginning keeps its capital. */
function inSentence(step: Step | undefined): string | null {
  if (!step?.what) return null;
  const [first = '', second = ''] = step.what;
  const isName = /^[A-Z]/.test(second);
  return `${isName ? first : first.toLowerCase()}${step.what.slice(1)}`.replace(/\.$/, '');
}
