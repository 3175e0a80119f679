/** Bytes as they come to lines, however they are cut. */
import { type Line, parseLine } from './line.ts';
import { LINK } from './vocabulary.ts';

const NEWLINE = 0x0a;
const RETURN = 0x0d;

/** Never holds more than one line; one too long is dropped up to its newline. */
export class LineReader {
  readonly #limit: number;
  #held: number[] = [];
  #isTooLong = false;
  #dropped = 0;

  /** `limit`: longest line, newline included, characters. */
  constructor(limit: number = LINK.answerLine) {
    this.#limit = limit;
  }

  /** Lines dropped so far. */
  get dropped(): number {
    return this.#dropped;
  }

  /** The lines that these bytes complete, bad ones with their reason. Empty lines are no lines. */
  push(bytes: Iterable<number>): Line[] {
    const lines: Line[] = [];
    for (const byte of bytes) {
      if (byte === NEWLINE) {
        const line = this.#finish();
        if (line) lines.push(line);
      } else if (this.#held.length < this.#limit) this.#held.push(byte);
      else this.#isTooLong = true;
    }
    return lines;
  }

  /** Forgets a half-read line, as when the port closes. */
  reset(): void {
    this.#held = [];
    this.#isTooLong = false;
  }

  #finish(): Line | null {
    const held = this.#held;
    if (held.at(-1) === RETURN) held.pop();
    const isTooLong = this.#isTooLong || held.length >= this.#limit;
    this.reset();
    if (held.length === 0) return null;
    // Bytes from 0x80 on become characters that no line may have.
    const line: Line = isTooLong ? { kind: 'bad', reason: 'tooLong' } : parseLine(String.fromCharCode(...held));
    if (line.kind === 'bad') this.#dropped += 1;
    return line;
  }
}
