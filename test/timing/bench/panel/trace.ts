/** Script time by frame, from a trace of the browser itself. */
import type { Page } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly pid: number;
  readonly tid: number;
}

/** What runs script, as the browser names it; one inside another counts once. */
const SCRIPT = new Set([
  'FireAnimationFrame',
  'FunctionCall',
  'EvaluateScript',
  'TimerFire',
  'RunMicrotasks',
  'EventDispatch',
  'FireIdleCallback',
]);

export interface Frames {
  /** Script between one frame and the next, ms: processor time where the browser tells it, else time by the clock. */
  readonly script: readonly number[];
  readonly isProcessorTime: boolean;
}

export async function traceFrames(page: Page, ms: number): Promise<Frames> {
  const session = await page.context().browser()?.newBrowserCDPSession();
  if (!session) throw new Error('no browser');
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  const done = new Promise((resolve) => session.on('Tracing.tracingComplete', resolve));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['devtools.timeline', 'v8', 'blink.user_timing', 'cc', 'benchmark'] },
  });
  await page.waitForTimeout(ms);
  await session.send('Tracing.end');
  await done;
  await session.detach();
  return byFrame(events);
}

export function byFrame(all: readonly TraceEvent[]): Frames {
  // The thread of the page: the one that draws frames.
  const mark = all.find(({ name }) => name === 'FireAnimationFrame');
  if (!mark) throw new Error('no frame was drawn');
  const events = all.filter(({ pid, tid }) => pid === mark.pid && tid === mark.tid).sort((a, b) => a.ts - b.ts);
  const isProcessorTime = events.some(({ name, tdur }) => SCRIPT.has(name) && tdur !== undefined);
  const starts = events.filter(({ name }) => name === 'FireAnimationFrame').map(({ ts }) => ts);
  const script: number[] = starts.slice(1).map(() => 0);
  let end = 0;
  let frame = 0;
  for (const { name, ph, ts, dur = 0, tdur } of events) {
    if (ph !== 'X' || !SCRIPT.has(name) || ts < end) continue;
    end = ts + dur;
    while (frame + 1 < starts.length && ts >= (starts[frame + 1] ?? 0)) frame++;
    if (ts < (starts[0] ?? 0) || frame >= script.length) continue;
    script[frame] = (script[frame] ?? 0) + ((isProcessorTime ? tdur : dur) ?? 0) / 1000;
  }
  return { script, isProcessorTime };
}
