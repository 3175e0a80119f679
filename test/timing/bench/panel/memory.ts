/** Memory of the page and of the host after an emulated evening, with times nudged all the while. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { CDPSession, Page } from 'playwright-core';
import type { Results } from '../results.ts';
import { benchApp } from './app.ts';

const HOURS = 4;
/** A nudge after so much of the evening, emulated minutes. */
const EVERY = 2;
const SAMPLES = 8;

interface Sample {
  /** Of the page, after everything that nobody holds is gone, MB. */
  readonly page: number;
  readonly host: number;
  readonly nodes: number;
  readonly listeners: number;
}

export async function evening(results: Results, hours = HOURS): Promise<void> {
  const app = await benchApp(hearTheBoard);
  try {
    const { page } = app;
    await page.goto(app.address);
    await page.locator('.lamp[data-look="lit"]').first().waitFor();
    // Real time, 2, 5, 10, 20, 50 times, as fast as it goes.
    for (let faster = 0; faster < 6; faster++) {
      await page.keyboard.press('.');
      await page.waitForTimeout(500);
    }
    const session = await page.context().newCDPSession(page);
    // The first nudges and reports make what is made once.
    await passMinutes(page, 10);
    const samples: Sample[] = [await sample(session)];
    for (let at = 0; at < SAMPLES; at++) {
      await passMinutes(page, (60 * hours) / SAMPLES);
      samples.push(await sample(session));
    }
    const [begin, middle, end] = [samples[0], samples[SAMPLES / 2], samples[SAMPLES]];
    if (!begin || !middle || !end) throw new Error('no samples');
    for (const [key, what, of] of [
      ['page', 'memory of the page', (it: Sample) => it.page],
      ['host', 'memory of the host, emulated boards included', (it: Sample) => it.host],
    ] as const) {
      results.clock(`${key}-begin`, `${what} after 10 minutes`, of(begin), 'MB');
      results.clock(`${key}-middle`, `the same after ${hours / 2} hours`, of(middle), 'MB');
      results.clock(`${key}-end`, `the same after ${hours} hours and ${(60 * hours) / EVERY} nudges`, of(end), 'MB');
    }
    results.clock('nodes-begin', 'elements of the page after 10 minutes', begin.nodes, '');
    results.clock('nodes-end', `the same after ${hours} hours`, end.nodes, '');
    results.clock('listeners-begin', 'listeners of the page after 10 minutes', begin.listeners, '');
    results.clock('listeners-end', `the same after ${hours} hours`, end.listeners, '');
  } finally {
    await app.close();
  }
}

/** Notes in the page what the board's clock says, as the panel hears it. */
function hearTheBoard(page: Page): Promise<unknown> {
  return page.addInitScript(() => {
    const Native = window.WebSocket;
    window.WebSocket = class extends Native {
      constructor(address: string | URL) {
        super(address);
        this.addEventListener('message', ({ data }) => {
          const { name, data: told } = JSON.parse(String(data));
          if (name === 'clock') Object.assign(window, { boardMs: told.ms });
        });
      }
    };
  });
}

/** Emulated minutes go by as fast as they can, with a nudge now and then, up and down in turn. */
async function passMinutes(page: Page, minutes: number): Promise<void> {
  for (let left = minutes; left > 0; left -= EVERY) {
    const turn = page.locator('[data-dial="green-1"] .turn');
    await (Math.round(left / EVERY) % 2 ? turn.first() : turn.last()).click();
    const before = await boardMs(page);
    while ((await boardMs(page)) < before + 60_000 * EVERY) await page.waitForTimeout(250);
  }
}

function boardMs(page: Page): Promise<number> {
  return page.evaluate(() => (window as unknown as { boardMs?: number }).boardMs ?? 0);
}

async function sample(session: CDPSession): Promise<Sample> {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  collect();
  await session.send('HeapProfiler.enable');
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = (await session.send('Runtime.getHeapUsage')) as { usedSize: number };
  const { nodes, jsEventListeners } = await session.send('Memory.getDOMCounters');
  const MB = 1024 * 1024;
  return { page: usedSize / MB, host: process.memoryUsage().heapUsed / MB, nodes, listeners: jsEventListeners };
}
