/** Bytes from a boot loader, looked at until they make an answer or time is up. */
import type { Clock } from '../clock.ts';
import type { ByteStream } from '../stream.ts';

/** A program that chatters without a pause is not waited for longer than this, ms. */
const QUIET_AT_MOST_MS = 500;

export class Inbox {
  /** Bytes heard in all. */
  heard = 0;
  private readonly clock: Clock;
  private bytes: number[] = [];
  private cause: string | null = null;
  private wake: () => void = () => {};

  constructor(stream: ByteStream, clock: Clock) {
    this.clock = clock;
    stream.onData((bytes) => {
      this.heard += bytes.length;
      this.bytes.push(...bytes);
      this.wake();
    });
    stream.onClose((cause) => {
      this.cause = cause;
      this.wake();
    });
  }

  /** Why the stream ended; null while it goes on. */
  get ended(): string | null {
    return this.cause;
  }

  get waiting(): number {
    return this.bytes.length;
  }

  clear(): void {
    this.bytes = [];
  }

  /** What `find` makes of the bytes since the last `clear`; null when it made nothing of them within the time. */
  async take<T>(find: (bytes: readonly number[]) => T | null, ms: number): Promise<T | null> {
    const until = this.clock.now() + ms;
    for (;;) {
      const found = find(this.bytes);
      if (found !== null) return found;
      const left = until - this.clock.now();
      if (left <= 0 || this.cause !== null) return null;
      await this.more(left);
    }
  }

  /** Waits until nothing has come for so long, and forgets what came. */
  async quiet(ms: number): Promise<void> {
    const until = this.clock.now() + QUIET_AT_MOST_MS;
    let heard: number;
    do {
      heard = this.heard;
      await this.more(ms);
    } while (heard !== this.heard && this.cause === null && this.clock.now() < until);
    this.clear();
  }

  /** Until anything comes, the stream ends or time is up. */
  private more(ms: number): Promise<void> {
    return new Promise((resolve) => {
      const stop = this.clock.setTimer(ms, () => this.wake());
      this.wake = () => {
        this.wake = () => {};
        stop();
        resolve();
      };
    });
  }
}
