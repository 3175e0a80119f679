/** Listens to both directions of a line and counts what a host has asked and not been answered (PROTOCOL.md, rule 3). */
import type { ByteStream } from '../../electron/host/stream.ts';
import { LineReader } from '../../shared/link/reader.ts';
import { VERBS } from '../../shared/link/vocabulary.ts';

const SLOW: ReadonlySet<string> = new Set(VERBS.filter(({ slow }) => slow).map(({ word }) => word));

export class Outstanding {
  /** The most at one moment. */
  readonly most = { quick: 0, slow: 0, bytes: 0 };
  requests = 0;
  /** Words of the lines that were sent again. */
  readonly repeats: string[] = [];
  events = 0;
  /** Lines from the board that were none. */
  bad = 0;
  private readonly open = new Map<number, { readonly isSlow: boolean; readonly bytes: number }>();
  private readonly toBoard = new LineReader();
  private readonly toHost = new LineReader();

  /** The stream to give to a session instead. */
  watch(board: ByteStream): ByteStream {
    board.onData((bytes) => this.answered(bytes));
    return {
      write: (bytes) => {
        this.asked(bytes);
        board.write(bytes);
      },
      onData: (listener) => board.onData(listener),
      onClose: (listener) => board.onClose(listener),
      close: () => board.close(),
    };
  }

  private asked(bytes: Uint8Array): void {
    for (const line of this.toBoard.push(bytes)) {
      if (line.kind !== 'request') throw new Error('the host wrote what is no request');
      this.requests += 1;
      if (this.open.has(line.sequence)) this.repeats.push(line.word);
      this.open.set(line.sequence, { isSlow: SLOW.has(line.word), bytes: bytes.length });
    }
    const all = [...this.open.values()];
    const slow = all.filter(({ isSlow }) => isSlow).length;
    this.most.slow = Math.max(this.most.slow, slow);
    this.most.quick = Math.max(this.most.quick, all.length - slow);
    this.most.bytes = Math.max(
      this.most.bytes,
      all.reduce((sum, one) => sum + one.bytes, 0),
    );
  }

  private answered(bytes: Uint8Array): void {
    for (const line of this.toHost.push(bytes)) {
      if (line.kind === 'answer') this.open.delete(line.sequence);
      else if (line.kind === 'event') this.events += 1;
      else this.bad += 1;
    }
  }
}
