/**
 * What the boot loaders of the tests have in common. Each is written down as a
 * loader is: a loop that waits for the next byte. They know no time but the
 * clock that they are given, and take none for what they do.
 */
import type { Clock } from '../../../electron/host/clock.ts';
import type { Flash } from './flash.ts';

/** A byte as the loader's receiver got it. */
export interface Heard {
  readonly byte: number;
  /** The stop bit was missing: the sender has another rate. */
  readonly broken: boolean;
}

export interface Surroundings {
  readonly clock: Clock;
  readonly flash: Flash;
  /** Three bytes. */
  readonly signature: readonly [number, number, number];
  readonly send: (bytes: readonly number[]) => void;
  /** The loader is done; the program on the board is to run, if there is one. */
  readonly startProgram: () => void;
  /**
   * A whole command has been carried out and its answer is about to be sent. False keeps
   * the answer back: the board went away, or the loader hangs.
   */
  readonly carriedOut: (command: number) => boolean;
}

export interface LoaderTarget {
  readonly baud: number;
  /** From its first instruction; `cause` is why the chip started. */
  start(cause: 'power' | 'reset' | 'watchdog'): void;
  receive(heard: Heard): void;
  /** Power off, or the program runs: hears and says nothing. */
  stop(): void;
}

/** Code that waits for bytes. */
export type Waiting<T> = Generator<undefined, T, Heard>;

/** Runs such code and gives up when no byte comes for too long. */
export class ByteLoop {
  private readonly clock: Clock;
  private running: Waiting<void> | null = null;
  private cancel: () => void = () => {};

  constructor(clock: Clock) {
    this.clock = clock;
  }

  get listening(): boolean {
    return this.running !== null;
  }

  begin(code: Waiting<void>): void {
    this.end();
    this.running = code;
    // A fresh generator first runs to where it waits.
    this.running.next();
  }

  hear(heard: Heard): void {
    this.running?.next(heard);
  }

  /** Sets the time that is left, ms. */
  patience(ms: number, then: () => void): void {
    this.cancel();
    this.cancel = this.clock.setTimer(ms, then);
  }

  end(): void {
    this.cancel();
    this.cancel = () => {};
    this.running = null;
  }
}

export function* nextByte(): Waiting<number> {
  return (yield).byte;
}

export function* nextBytes(count: number): Waiting<number[]> {
  const bytes: number[] = [];
  while (bytes.length < count) bytes.push((yield).byte);
  return bytes;
}
