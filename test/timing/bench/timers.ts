/** How late the computer's own timers fire, measured here and now. */
import { availableParallelism, loadavg } from 'node:os';
import { Worker } from 'node:worker_threads';

export interface Lateness {
  /** Each firing's time beyond the time that was asked for, ms, smallest first. */
  readonly late: readonly number[];
  /** Threads of ours that computed meanwhile, and the load of the computer (one minute) at the end. */
  readonly busyThreads: number;
  readonly load: number;
}

/** As many timers at once as the example has sites. */
const CHAINS = 3;

/** Timers of 10 to 50 ms, one after another in three chains, for so long; `busyThreads` compute without a pause. */
export async function measureTimers(seconds: number, busyThreads: number): Promise<Lateness> {
  const busy = Array.from({ length: busyThreads }, () => new Worker('for (;;) Math.sqrt(2);', { eval: true }));
  const late: number[] = [];
  const until = performance.now() + 1000 * seconds;
  const chain = (done: () => void, length: number): void => {
    const asked = performance.now();
    setTimeout(() => {
      const now = performance.now();
      late.push(now - asked - length);
      if (now < until) chain(done, 10 + ((length * 7 + 3) % 41));
      else done();
    }, length);
  };
  await Promise.all(Array.from({ length: CHAINS }, (_, at) => new Promise<void>((done) => chain(done, 10 + 11 * at))));
  await Promise.all(busy.map((worker) => worker.terminate()));
  return { late: late.sort((a, b) => a - b), busyThreads, load: loadavg()[0] ?? 0 };
}

/** Twice as many as the computer does at once. */
export const UNDER_LOAD = 2 * availableParallelism();

/** Value below which so large a share lies. */
export function quantile({ late }: Lateness, share: number): number {
  return late[Math.min(late.length - 1, Math.floor(share * late.length))] ?? 0;
}
