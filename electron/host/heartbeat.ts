/**
 * The one heartbeat of a session: asks the board for its time, so that the board knows that its host is there and the
 * host that the board is. Says when nothing has been heard for a while, and when the board has to be given up.
 */
import type { Clock } from './clock.ts';
import type { HostError, Outcome } from './result.ts';

/** Unanswered in a row, each asked five times: the board is given up. One alone may be a computer that was busy. */
const MISSES = 2;
/** A timer that is later than this says that the computer was busy: bytes may wait that nobody has read yet. */
const LATE_MS = 200;

export interface HeartbeatHost {
  readonly clock: Clock;
  readonly ask: () => Promise<Outcome<number, HostError>>;
  /** Board time, ms, and when it came by the host's clock. */
  readonly beat: (boardMs: number, at: number) => void;
  readonly quietChanged: () => void;
  readonly silent: () => void;
}

export class Heartbeat {
  quiet = false;
  /** When the last byte came, by the host's clock. */
  heardAt: number;
  private readonly host: HeartbeatHost;
  private readonly quietMs: number | null;
  private readonly allowed: number;
  private misses = 0;
  private round = 0;
  private interval: () => number = () => 0;
  private stopBeat: () => void = () => {};
  private stopWatch: () => void = () => {};

  /** `quietMs`: silence of so many ms is told; null for never. `misses`: so many in a row end it. */
  constructor(host: HeartbeatHost, quietMs: number | null, misses = MISSES) {
    this.allowed = misses;
    this.host = host;
    this.quietMs = quietMs;
    this.heardAt = host.clock.now();
  }

  /** Beats from now on, the first one after `firstMs`, with `interval()` ms between an answer and the next question. */
  start(interval: () => number, firstMs: number): void {
    this.stop();
    this.interval = interval;
    this.heardAt = this.host.clock.now();
    this.watch(this.quietMs);
    this.later(firstMs);
  }

  stop(): void {
    this.round += 1;
    this.misses = 0;
    this.stopBeat();
    this.stopWatch();
  }

  /** Bytes have come, whatever they say. */
  heard(): void {
    this.heardAt = this.host.clock.now();
    if (!this.quiet) return;
    this.quiet = false;
    this.watch(this.quietMs);
    this.host.quietChanged();
  }

  private later(ms: number): void {
    const { round } = this;
    if (ms === 0) void this.ask(round);
    else this.stopBeat = this.host.clock.setTimer(ms, () => void this.ask(round));
  }

  private async ask(round: number): Promise<void> {
    const answer = await this.host.ask();
    if (round !== this.round) return;
    if (answer.ok) {
      this.misses = 0;
      this.host.beat(answer.value, this.host.clock.now());
      if (round === this.round) this.later(this.interval());
      return;
    }
    this.misses = answer.error.kind === 'silent' ? this.misses + 1 : 0;
    if (this.misses >= this.allowed) this.host.silent();
    else this.later(this.misses > 0 ? 0 : this.interval());
  }

  private watch(ms: number | null): void {
    this.stopWatch();
    if (ms === null || this.quietMs === null) return;
    const due = this.host.clock.now() + ms;
    const quietMs = this.quietMs;
    this.stopWatch = this.host.clock.setTimer(ms, () => {
      const now = this.host.clock.now();
      const left = this.heardAt + quietMs - now;
      if (left > 0) return this.watch(left);
      if (now - due > LATE_MS) return this.watch(LATE_MS);
      this.quiet = true;
      this.host.quietChanged();
    });
  }
}
