/** Writing firmware and replacing a board as the person meets it: a question, the work, what came of it. */
import { signal } from '@preact/signals';
import type { BoardState, Problem, Workbench } from '../../shared/workbench/contract.ts';

export interface Job {
  readonly is: 'put' | 'update' | 'replace';
  /** Id in the layout. */
  readonly board: string;
  readonly port: string;
}

export type Writing =
  | { readonly step: 'ask' | 'work'; readonly job: Job }
  | { readonly step: 'done'; readonly job: Job; readonly state: BoardState }
  | { readonly step: 'failed'; readonly job: Job; readonly problem: Problem };

interface Parts {
  readonly call: Workbench['call'];
  /** What is wrong with it now, for those who do not look at the sheet; null when it is being mended. */
  readonly trouble: (job: Job, problem: Problem | null) => void;
}

export class WritingModel {
  /** Null while there is nothing to say. */
  readonly now = signal<Writing | null>(null);
  readonly #parts: Parts;

  constructor(parts: Parts) {
    this.#parts = parts;
  }

  /** Puts the question. While one board is being written to, another has to wait. */
  ask(job: Job): void {
    if (this.now.peek()?.step !== 'work') this.now.value = { step: 'ask', job };
  }

  /** Does what was asked, or once more what has failed. */
  async begin(): Promise<void> {
    const now = this.now.peek();
    if (now?.step !== 'ask' && now?.step !== 'failed') return;
    const { job } = now;
    this.now.value = { step: 'work', job };
    this.#parts.trouble(job, null);
    const name = job.is === 'replace' ? 'replaceBoard' : 'writeFirmware';
    const outcome = await this.#parts.call(name, { board: job.board, port: job.port });
    if (this.now.peek()?.job !== job) return;
    if (outcome.ok) this.now.value = { step: 'done', job, state: outcome.value };
    else {
      this.now.value = { step: 'failed', job, problem: outcome.problem };
      this.#parts.trouble(job, outcome.problem);
    }
  }

  /** The host is another one, or there is none: whatever was under way is not known. */
  forget(): void {
    this.now.value = null;
  }
}
