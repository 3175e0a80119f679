/**
 * Notices plug and unplug: asks twice a second which devices there are. The
 * serial library does not always tell that a device is gone.
 */
import type { Clock } from '../clock.ts';

/** Between two questions, ms. */
const LOOK_MS = 500;
/** Of a port that was there before anybody looked. */
const EVER = Number.NEGATIVE_INFINITY;

export interface WatchHooks {
  readonly clock: Clock;
  /** Paths of the devices that are there now; rejects where nothing is known. */
  readonly present: (watched: readonly string[]) => Promise<readonly string[]>;
  /** Ports that somebody has to do with. */
  readonly watched: () => readonly string[];
  readonly onGone: (paths: readonly string[]) => void;
  /** Other ports than before; after `onGone`. */
  readonly onChanged: () => void;
}

export class PortWatch {
  private readonly hooks: WatchHooks;
  /** When each port was first seen since it was last away; null before the first look. */
  private since: Map<string, number> | null = null;
  private watched: ReadonlySet<string> = new Set();
  private stopTimer: () => void = () => {};
  /** Counts up with each start and stop. */
  private round = 0;

  constructor(hooks: WatchHooks) {
    this.hooks = hooks;
  }

  start(): void {
    this.stop();
    void this.look(this.round);
  }

  stop(): void {
    this.round += 1;
    this.stopTimer();
    this.since = null;
    this.watched = new Set();
  }

  /** Ports that came after this moment of the clock and are still there, in the order of their coming. */
  appeared(after: number): readonly string[] {
    const found = [...(this.since ?? [])].filter(([, at]) => at > after);
    return found.sort(([, a], [, b]) => a - b).map(([path]) => path);
  }

  private async look(round: number): Promise<void> {
    const watched = this.hooks.watched();
    let found: readonly string[] | null;
    try {
      found = await this.hooks.present(watched);
    } catch {
      // A system that does not tell has not said that anything is gone.
      found = null;
    }
    if (round !== this.round) return;
    this.stopTimer = this.hooks.clock.setTimer(LOOK_MS, () => void this.look(round));
    if (found) this.compare(found, new Set(watched));
  }

  private compare(found: readonly string[], watched: ReadonlySet<string>): void {
    const before = this.since;
    const now = this.hooks.clock.now();
    // One that nobody asked for before may have been there all the time.
    const isFirst = (path: string): boolean => before === null || (watched.has(path) && !this.watched.has(path));
    this.since = new Map(found.map((path) => [path, before?.get(path) ?? (isFirst(path) ? EVER : now)]));
    this.watched = watched;
    if (before === null) return;
    const since = this.since;
    const gone = [...before.keys()].filter((path) => !since.has(path));
    const isOther = gone.length > 0 || found.some((path) => !before.has(path));
    if (gone.length > 0) this.hooks.onGone(gone);
    if (isOther) this.hooks.onChanged();
  }
}
