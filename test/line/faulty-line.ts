/**
 * A line with faults: stands between a host and any board, and does to each byte what its plan says. What it did can be
 * read from `done` and played again (`scripted(...done.map(faultText))`).
 */
import type { Clock } from '../../electron/host/clock.ts';
import { type ByteStream, StreamEnds } from '../../electron/host/stream.ts';
import type { Fault, FaultPlan, Way } from './faults.ts';

export interface FaultyLineOptions {
  readonly board: ByteStream;
  /** Of the same time as the board. */
  readonly clock: Clock;
  readonly plan: FaultPlan;
  /** The reset pin of the board; without it such faults do nothing. */
  readonly reset?: () => void;
  /** The cable is pulled: what becomes of the board, which may live by it. */
  readonly unplugged?: () => void;
}

/** Bytes of one direction, in their order, whatever is delayed. */
class Lane {
  count = 0;
  /** Nothing arrives before this, ms. */
  private freeAt = 0;
  private readonly clock: Clock;
  private readonly deliver: (bytes: Uint8Array) => void;

  constructor(clock: Clock, deliver: (bytes: Uint8Array) => void) {
    this.clock = clock;
    this.deliver = deliver;
  }

  send(bytes: readonly number[]): void {
    if (bytes.length === 0) return;
    const wait = this.freeAt - this.clock.now();
    const piece = Uint8Array.from(bytes);
    if (wait <= 0) this.deliver(piece);
    else this.clock.setTimer(wait, () => this.deliver(piece));
  }

  hold(ms: number): void {
    this.freeAt = Math.max(this.freeAt, this.clock.now()) + ms;
  }
}

export class FaultyLine implements ByteStream {
  /** Faults so far, in their order. */
  readonly done: Fault[] = [];
  private readonly options: FaultyLineOptions;
  private readonly ends = new StreamEnds();
  private readonly lanes: Readonly<Record<Way, Lane>>;

  constructor(options: FaultyLineOptions) {
    this.options = options;
    const { board, clock } = options;
    this.lanes = {
      board: new Lane(clock, (bytes) => {
        if (!this.ends.ended) board.write(bytes);
      }),
      host: new Lane(clock, (bytes) => this.ends.data(bytes)),
    };
    board.onData((bytes) => this.pass('host', bytes));
    board.onClose((cause) => this.ends.end(cause));
  }

  /** Bytes that have set out so far. */
  carried(to: Way): number {
    return this.lanes[to].count;
  }

  write(bytes: Uint8Array): void {
    this.pass('board', bytes);
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  /** Ends the host's side; the board goes on and can be given another line. */
  async close(): Promise<void> {
    this.ends.end('The connection was closed.');
  }

  private pass(to: Way, bytes: Uint8Array): void {
    const lane = this.lanes[to];
    let piece: number[] = [];
    const flush = () => {
      lane.send(piece);
      piece = [];
    };
    for (const byte of bytes) {
      if (this.ends.ended) return;
      const fault = this.options.plan(to, lane.count++);
      if (!fault) {
        piece.push(byte);
        continue;
      }
      this.done.push(fault);
      if (fault.kind === 'repeat') piece.push(byte, byte);
      else if (fault.kind === 'flip') piece.push(byte ^ (1 << fault.value));
      else if (fault.kind === 'split') {
        piece.push(byte);
        flush();
        lane.hold(1);
      } else if (fault.kind !== 'drop') {
        flush();
        if (fault.kind === 'delay') lane.hold(fault.value);
        else this.strike(fault.kind === 'unplug');
        piece.push(byte);
      }
    }
    if (!this.ends.ended) flush();
  }

  private strike(isUnplug: boolean): void {
    const { reset, unplugged } = this.options;
    if (isUnplug) {
      this.ends.end('The cable was pulled.');
      unplugged?.();
    } else reset?.();
  }
}
