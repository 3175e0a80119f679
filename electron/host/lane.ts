/**
 * One lane of requests: the next is sent when the one before is answered. A
 * session has two, quick and slow (firmware/PROTOCOL.md, chapter 1, rule 3).
 */
import type { AnswerLine } from '../../shared/link/line.ts';
import type { Clock } from './clock.ts';
import { failed, fine, type HostError, type Outcome } from './result.ts';

/** How long a request waits. */
export interface Patience {
  /** The same line is sent again after this, ms. */
  readonly resendMs: number;
  /** The board counts as silent after this, ms. */
  readonly giveUpMs: number;
}

export interface Job {
  /** The whole line for a sequence number, newline included. */
  line(sequence: number): Uint8Array;
  readonly patience: Patience;
  done(outcome: Outcome<AnswerLine, HostError>): void;
}

/** A timer that is later than this says that the computer was busy; an answer may wait that nobody has read yet. */
const LATE_MS = 200;

interface Running {
  readonly job: Job;
  readonly sequence: number;
  readonly bytes: Uint8Array;
  givesUpAt: number;
  cancel: () => void;
}

export interface LaneHost {
  readonly clock: Clock;
  /** A sequence number that no running request has. */
  nextSequence(): number;
  write(bytes: Uint8Array): void;
}

export class Lane {
  private readonly host: LaneHost;
  private readonly queue: Job[] = [];
  private running: Running | null = null;

  constructor(host: LaneHost) {
    this.host = host;
  }

  get sequence(): number | null {
    return this.running?.sequence ?? null;
  }

  add(job: Job): void {
    this.queue.push(job);
    if (!this.running) this.next();
  }

  /** Hands over an answer if this lane waits for its number. */
  answer(line: AnswerLine): void {
    if (this.running?.sequence === line.sequence) this.finish(this.running, fine(line));
  }

  /** The board is busy with something else: asks again a little later. */
  postpone(sequence: number, ms: number): boolean {
    const { running } = this;
    if (!running || running.sequence !== sequence || this.host.clock.now() >= running.givesUpAt) return false;
    running.cancel();
    this.sendLater(running, ms);
    return true;
  }

  /** Sends the running request again at once, as after a restart of the board. */
  again(): void {
    if (!this.running) return;
    this.running.cancel();
    this.send(this.running);
  }

  /** Ends everything that waits; nothing is sent any more. */
  end(error: HostError): void {
    const jobs = [...(this.running ? [this.running.job] : []), ...this.queue.splice(0)];
    this.running?.cancel();
    this.running = null;
    for (const job of jobs) job.done(failed(error));
  }

  private finish(running: Running, outcome: Outcome<AnswerLine, HostError>): void {
    running.cancel();
    this.running = null;
    running.job.done(outcome);
    this.next();
  }

  private next(): void {
    if (this.running) return;
    const job = this.queue.shift();
    if (!job) return;
    const sequence = this.host.nextSequence();
    const givesUpAt = this.host.clock.now() + job.patience.giveUpMs;
    this.running = { job, sequence, bytes: job.line(sequence), givesUpAt, cancel: () => {} };
    this.send(this.running);
  }

  private send(running: Running): void {
    const left = running.givesUpAt - this.host.clock.now();
    if (left <= 0) {
      this.finish(running, failed({ kind: 'silent' }));
      return;
    }
    this.sendLater(running, Math.min(running.job.patience.resendMs, left));
    // Last, because the answer may come before this returns.
    this.host.write(running.bytes);
  }

  private sendLater(running: Running, ms: number): void {
    const due = this.host.clock.now() + ms;
    running.cancel = this.host.clock.setTimer(ms, () => {
      const late = this.host.clock.now() - due;
      if (late > LATE_MS) running.givesUpAt += late;
      this.send(running);
    });
  }
}
