/** An open port and the conversation over it, until it is closed, gone or given to another link. */
import type { Who } from '../../../shared/link/requests.ts';
import type { Clock } from '../clock.ts';
import type { HostError, Outcome } from '../result.ts';
import { BoardSession } from '../session.ts';
import type { OpenedPort } from './neighbours.ts';

/** Heartbeats go out this often, ms. */
const BEAT_MS = 500;
/** A board that has said nothing for so long is quiet, ms: two heartbeats, one of them asked twice. */
const QUIET_MS = 1000;

/** A virtual board has no cable: when it is silent, the computer is busy. It says itself when it stops. */
const VIRTUAL_MISSES = 10;

export class OpenLine {
  readonly port: string;
  readonly opened: OpenedPort;
  gone = false;
  /** Whether opening it started the board anew; null while not known. */
  resets: boolean | null = null;
  private readonly clock: Clock;
  private listenMs: number;
  private conversation: BoardSession | null = null;

  /** `listenMs`: how long to keep still before the first greeting, see `BoardSession.greet`. */
  constructor(opened: OpenedPort, clock: Clock, listenMs = 0) {
    this.listenMs = listenMs;
    this.port = opened.port;
    this.opened = opened;
    this.clock = clock;
    // Before any session listens, so that it is known when the session ends by it.
    opened.stream.onClose(() => {
      this.gone = true;
    });
  }

  get session(): BoardSession | null {
    return this.conversation;
  }

  greet(): Promise<Outcome<Who, HostError>> {
    if (this.conversation === null || this.conversation.ended !== null) {
      const misses = isVirtual(this.port) ? { misses: VIRTUAL_MISSES } : {};
      const options = { clock: this.clock, beatMs: BEAT_MS, quietMs: QUIET_MS, ...misses };
      this.conversation = new BoardSession(this.opened.stream, options);
    }
    const { listenMs } = this;
    this.listenMs = 0;
    return this.conversation.greet(listenMs);
  }

  /**
   * Finds out whether the opening started the board anew: it said so, or it has run for less time than the port is open.
   * `found` is called when that is known.
   */
  judge(found: () => void): void {
    const { session } = this;
    if (session?.restarted) this.resets ??= true;
    if (this.resets !== null || session === null) found();
    else {
      session.onBeat((boardMs, at) => {
        if (this.resets !== null) return;
        this.resets = boardMs < at - this.opened.openedAt;
        found();
      });
    }
  }

  /** The device is gone, even if nobody else has said so. */
  lose(): void {
    if (this.gone) return;
    this.gone = true;
    this.conversation?.abandon('The device is gone.');
    // Not waited for: closing what is gone may take for ever.
    void this.opened.stream.close();
  }

  /** The stream stays open and belongs to whoever gets it. */
  giveAway(): OpenedPort {
    this.conversation?.abandon('It is the board of another connection.');
    return this.opened;
  }

  async close(): Promise<void> {
    this.conversation?.abandon('The connection was closed.');
    if (!this.gone) await this.opened.stream.close();
  }
}

export function isVirtual(path: string): boolean {
  return path.startsWith('virtual:');
}
