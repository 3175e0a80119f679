/** Cuts one direction of a byte stream into what was said: lines, and rubbish that never becomes one. */
import { LINK } from '../../../shared/link/vocabulary.ts';

const NEWLINE = 0x0a;
const RETURN = 0x0d;
/** Bytes that no newline follows for so long, ms, are no line: the longest takes 21 ms, at a tenth of real time 0.2 s. */
const PAUSE_MS = 500;

export interface Piece {
  readonly at: Date;
  /** One character for each byte, without the newline. */
  readonly text: string;
  /** `unfinished`: no newline came. `tooLong`, `rest`: the begin and the remains of a line over the limit. */
  readonly kind: 'line' | 'unfinished' | 'tooLong' | 'rest';
}

export class LineCutter {
  private held: number[] = [];
  private heldAt: Date | null = null;
  private isRest = false;

  /** The pieces that these bytes complete. Empty lines are none, as for the reader of the link. */
  push(bytes: Uint8Array, at: Date): Piece[] {
    const pieces = this.stale(at);
    for (const byte of bytes) {
      this.heldAt = at;
      if (byte === NEWLINE) {
        if (this.held.at(-1) === RETURN) this.held.pop();
        pieces.push(...this.take(this.isRest ? 'rest' : 'line'));
        this.isRest = false;
      } else {
        this.held.push(byte);
        // A carriage return may still belong to the newline after it.
        const limit = byte === RETURN ? LINK.answerLine + 1 : LINK.answerLine;
        if (this.held.length < limit) continue;
        pieces.push(...this.take(this.isRest ? 'rest' : 'tooLong'));
        this.isRest = true;
      }
    }
    return pieces;
  }

  /** What has waited too long for its newline. */
  stale(now: Date): Piece[] {
    // A wall clock may be set back; then it is better to cut once too often.
    const waited = this.heldAt === null ? 0 : Math.abs(now.getTime() - this.heldAt.getTime());
    return waited >= PAUSE_MS ? this.end() : [];
  }

  /** What is left when the stream ends. */
  end(): Piece[] {
    const pieces = this.take(this.isRest ? 'rest' : 'unfinished');
    this.isRest = false;
    return pieces;
  }

  private take(kind: Piece['kind']): Piece[] {
    const { held, heldAt } = this;
    this.held = [];
    this.heldAt = null;
    return held.length === 0 || heldAt === null ? [] : [{ at: heldAt, text: String.fromCharCode(...held), kind }];
  }
}
