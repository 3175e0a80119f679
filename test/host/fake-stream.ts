import { type ByteStream, StreamEnds } from '../../electron/host/stream.ts';

/** What may happen to bytes on their way; each gets one write and says what arrives. */
export type Mischief = (bytes: Uint8Array) => Uint8Array[];

export const untouched: Mischief = (bytes) => [bytes];
/** Arrives byte by byte. */
export const split: Mischief = (bytes) => Array.from(bytes, (byte) => Uint8Array.of(byte));
/** Never arrives. */
export const drop: Mischief = () => [];
/** One bit of one byte is wrong. */
export const garble: Mischief = (bytes) => [bytes.map((byte, index) => (index === 3 ? byte ^ 0x04 : byte))];

/** Does these things to the first writes, one each, and nothing to the later ones. */
export function once(...first: Mischief[]): Mischief {
  return (bytes) => (first.shift() ?? untouched)(bytes);
}

/** A byte stream with a board's end in the hands of the test. */
export class FakeStream implements ByteStream {
  /** What the host wrote, as text, also what was lost on the way. */
  readonly written: string[] = [];
  toBoard: Mischief = untouched;
  toHost: Mischief = untouched;
  /** The board hears bytes. */
  onBoard: (bytes: Uint8Array) => void = () => {};
  private readonly ends = new StreamEnds();

  write(bytes: Uint8Array): void {
    if (this.ends.ended) return;
    this.written.push(String.fromCharCode(...bytes));
    for (const piece of this.toBoard(bytes)) this.onBoard(piece);
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  async close(): Promise<void> {
    this.ends.end('closed');
  }

  /** The board says something. */
  say(text: string): void {
    for (const piece of this.toHost(Uint8Array.from(text, (char) => char.charCodeAt(0)))) this.ends.data(piece);
  }

  unplug(): void {
    this.ends.end('The cable was pulled.');
  }
}
