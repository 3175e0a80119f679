/** What was said between this computer and a board, kept fresh while somebody looks. */
import { signal } from '@preact/signals';
import { parseLine } from '../../shared/link/line.ts';
import type { Frame, Workbench } from '../../shared/workbench/contract.ts';
import { isLoaderTrouble } from '../../shared/workbench/story/groups.ts';

/** Events of a board that tell of something going wrong (firmware/PROTOCOL.md, events). */
const BAD_EVENTS: ReadonlySet<string> = new Set(['fault', 'gap', 'alone']);

/** Noise, a refusal by board or boot loader, or an event that tells of something wrong. */
export function isTrouble({ sound, text, meaning }: Frame): boolean {
  if (!sound || isLoaderTrouble(meaning)) return true;
  const line = parseLine(text);
  if (line.kind === 'answer') return !line.outcome.ok;
  return line.kind === 'event' && BAD_EVENTS.has(line.word);
}

export class FramesModel {
  /** Oldest first. */
  readonly lines = signal<readonly Frame[]>([]);
  readonly #call: Workbench['call'];
  #board: string | null = null;

  constructor(call: Workbench['call']) {
    this.#call = call;
  }

  /** Asks for the lines of a board once; an answer for a board that is no longer looked at is dropped. */
  async read(board: string): Promise<void> {
    if (this.#board !== board) this.lines.value = [];
    this.#board = board;
    const outcome = await this.#call('readFrames', { board });
    if (!outcome.ok || this.#board !== board) return;
    // Without news nothing is drawn anew, so that a selection in the list stays.
    const isNews =
      outcome.value.length !== this.lines.peek().length ||
      outcome.value.at(-1)?.number !== this.lines.peek().at(-1)?.number;
    if (isNews) this.lines.value = outcome.value;
  }
}
