/**
 * Sets the pace of a session's heartbeat and tells the time of the board about
 * twice a second. A fast virtual board counts its host as gone after five
 * seconds of its own time, so it is asked more often.
 */
import type { Clock } from '../clock.ts';
import type { BoardSession } from '../session.ts';
import { after } from './live-view.ts';

/** Between two tellings, ms of the host. */
const TELL_MS = 500;
/** Between two questions, ms of the board; it waits for 5,000. */
const BOARD_MS = 1500;
/** Shortest time between two questions, ms of the host. */
const LEAST_MS = 10;

export interface HeartHooks {
  readonly beat: (boardMs: number, pace: number) => void;
  /** Speed that the board is set to; 0 as fast as it goes. */
  readonly speed: () => number;
}

export class Heart {
  private readonly clock: Clock;
  private readonly hooks: HeartHooks;
  private session: BoardSession | null = null;
  private told: { readonly ms: number; readonly at: number } | null = null;

  constructor(clock: Clock, hooks: HeartHooks) {
    this.clock = clock;
    this.hooks = hooks;
  }

  start(session: BoardSession): void {
    this.stop();
    this.session = session;
    session.onBeat((ms) => {
      if (this.session === session) this.heard(ms);
    });
    session.beatEvery(() => this.interval());
  }

  stop(): void {
    this.session?.beatEvery(null);
    this.session = null;
    this.told = null;
  }

  private heard(ms: number): void {
    const at = this.clock.now();
    const { told } = this;
    if (told && at - told.at < TELL_MS - LEAST_MS) return;
    this.told = { ms, at };
    this.hooks.beat(ms, this.pace(ms, at, told));
  }

  /** Real time is taken at its word; a hurried emulator does what the computer can. */
  private pace(ms: number, at: number, before: { readonly ms: number; readonly at: number } | null): number {
    const speed = this.hooks.speed();
    if (speed === 1 || !before || at <= before.at) return speed === 0 ? 1 : speed;
    return Math.max(0, after(ms, before.ms)) / (at - before.at);
  }

  private interval(): number {
    const speed = this.hooks.speed();
    if (speed === 0) return LEAST_MS;
    return Math.max(LEAST_MS, Math.min(TELL_MS, BOARD_MS / speed));
  }
}
