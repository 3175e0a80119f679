/** Changes of the layout from the panel. The text before each is remembered, so that all of it can be had again. */
import type { CallArgs, DocumentState, Outcome } from '../../shared/workbench/contract.ts';
import type { History } from './history.ts';

interface Parts {
  readonly history: History;
  readonly text: () => string | null;
  /** Asks the host; a failure is shown. */
  readonly change: (text: string, what: string, as?: EditKind) => Promise<Outcome<DocumentState>>;
}

/** What the log files a change under. Default: document. */
export type EditKind = NonNullable<CallArgs<'changeText'>['as']>;

export class Edits {
  readonly #parts: Parts;
  /** Texts that are on their way to the host. */
  readonly #asked = new Set<string>();

  constructor(parts: Parts) {
    this.#parts = parts;
  }

  /** A text that this panel asked for: what was done before stays done. */
  isOwn(text: string): boolean {
    return this.#asked.has(text);
  }

  /** `what` is one line in the past tense. False when the host refused it. */
  async make(text: string, what: string, as?: EditKind): Promise<boolean> {
    const before = this.#parts.text();
    if (before === null || before === text) return false;
    return this.#parts.history.take(async () => {
      if (!(await this.#ask(text, what, as))) return null;
      return {
        what,
        undo: () => this.#ask(before, `Undid: ${what}`, as),
        redo: () => this.#ask(text, `Did again: ${what}`, as),
      };
    });
  }

  async #ask(text: string, what: string, as?: EditKind): Promise<boolean> {
    this.#asked.add(text);
    const outcome = await this.#parts.change(text, what.slice(0, 400), as);
    this.#asked.delete(text);
    return outcome.ok;
  }
}
