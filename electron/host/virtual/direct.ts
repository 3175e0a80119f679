/**
 * A virtual board driven in its own time: the stream and the clock of a session
 * go on only while something is awaited. An upload takes the same board time
 * as on a real board and a fraction of a second of ours.
 */
import type { Clock } from '../clock.ts';
import { type ByteStream, StreamEnds } from '../stream.ts';
import type { VirtualBoard } from './board.ts';
import { CPU_HZ } from './chips.ts';

const STEP = CPU_HZ / 1000;

interface Timer {
  readonly at: number;
  readonly then: () => void;
}

export class DirectLine implements ByteStream, Clock {
  readonly board: VirtualBoard;
  private readonly ends = new StreamEnds();
  private timers: Timer[] = [];
  private heard: number[] = [];

  constructor(board: VirtualBoard) {
    this.board = board;
    board.onByte = (byte) => this.heard.push(byte);
  }

  write(bytes: Uint8Array): void {
    if (!this.ends.ended) this.board.write(bytes);
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  async close(): Promise<void> {
    this.ends.end('The connection was closed.');
  }

  /** Board time, ms. */
  now(): number {
    return this.board.milliseconds;
  }

  setTimer(ms: number, then: () => void): () => void {
    const timer = { at: this.now() + ms, then };
    this.timers.push(timer);
    return () => {
      this.timers = this.timers.filter((other) => other !== timer);
    };
  }

  /** Lets board time pass, a millisecond a step, until the promise is settled. */
  async until<T>(promise: Promise<T>): Promise<T> {
    let settled = false;
    const done = promise.finally(() => {
      settled = true;
    });
    // A rejection is the caller's to handle, when it awaits the result.
    done.catch(() => {});
    for (;;) {
      await new Promise((resolve) => setImmediate(resolve));
      if (settled) return done;
      this.step();
    }
  }

  private step(): void {
    this.board.run(STEP);
    const bytes = Uint8Array.from(this.heard);
    this.heard = [];
    if (bytes.length > 0) this.ends.data(bytes);
    const due = this.timers.filter((timer) => timer.at <= this.now());
    this.timers = this.timers.filter((timer) => timer.at > this.now());
    for (const timer of due) timer.then();
  }
}
