import type { Clock } from '../../electron/host/clock.ts';

/** A clock that stands still until told to go on. */
export class FakeClock implements Clock {
  private time = 0;
  private readonly timers: { at: number; then: () => void }[] = [];

  now(): number {
    return this.time;
  }

  setTimer(ms: number, then: () => void): () => void {
    const timer = { at: this.time + ms, then };
    this.timers.push(timer);
    return () => {
      const index = this.timers.indexOf(timer);
      if (index >= 0) this.timers.splice(index, 1);
    };
  }

  /** Timers that wait. */
  get waiting(): number {
    return this.timers.length;
  }

  /** Lets time pass; every timer due goes off at its own moment, in order. */
  async advance(ms: number): Promise<void> {
    const end = this.time + ms;
    await settle();
    for (;;) {
      const next = this.timers.filter((timer) => timer.at <= end).sort((a, b) => a.at - b.at)[0];
      if (!next) break;
      this.timers.splice(this.timers.indexOf(next), 1);
      this.time = Math.max(this.time, next.at);
      next.then();
      await settle();
    }
    this.time = end;
  }

  /** The computer is busy for so long: timers due meanwhile go off late, and before anything else. */
  async jump(ms: number): Promise<void> {
    await settle();
    this.time += ms;
    const due = this.timers.filter(({ at }) => at <= this.time).sort((a, b) => a.at - b.at);
    for (const timer of due) {
      const index = this.timers.indexOf(timer);
      if (index < 0) continue;
      this.timers.splice(index, 1);
      timer.then();
    }
    await settle();
  }
}

/** Lets everything that waits on promises go on. */
export function settle(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}
