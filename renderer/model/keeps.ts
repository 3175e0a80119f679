/** What a board kept before, read while somebody looks at it. */
import { signal } from '@preact/signals';
import type { EarlierKeep, Workbench } from '../../shared/workbench/contract.ts';
import type { Model } from './model.ts';

export class KeepsModel {
  /** Newest first; null before they were read. */
  readonly list = signal<readonly EarlierKeep[] | null>(null);
  readonly #call: Workbench['call'];
  #board: string | null = null;

  constructor(call: Workbench['call']) {
    this.#call = call;
  }

  /** An answer for a board that is no longer looked at is dropped. */
  async read(board: string): Promise<void> {
    if (this.#board !== board) this.list.value = null;
    this.#board = board;
    const outcome = await this.#call('earlierKeeps', { board });
    if (this.#board === board) this.list.value = outcome.ok ? outcome.value : [];
  }
}

/** Runs and keeps an earlier table in one step; what ran before can be chosen again, unless it was never kept. */
export async function putBackKept(model: Model, board: string, { at, crc }: EarlierKeep): Promise<void> {
  await model.ask('putBackKept', { board, at, crc });
  await model.keeps.read(board);
}
