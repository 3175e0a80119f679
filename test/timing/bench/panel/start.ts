/** From nothing to a dial that can be turned. */
import type { Page } from 'playwright-core';
import type { Results } from '../results.ts';
import { benchApp, quantile } from './app.ts';

const LOADS = 7;

export async function panelStart(results: Results): Promise<void> {
  const app = await benchApp(noteReady);
  try {
    const began = performance.now();
    await app.page.goto(app.address);
    await app.page.locator('.lamp[data-look="lit"]').first().waitFor();
    results.clock('start-host', 'host: from its start until its address can be opened', app.servedAfter, 'ms');
    results.clock('start-first', 'first start: from the address until lamps glow', performance.now() - began, 'ms');
    const loads: number[] = [];
    for (let load = 0; load < LOADS; load++) {
      await app.page.reload();
      loads.push(await readyAt(app.page));
    }
    results.clock(
      'start-panel',
      'panel: from opening it until a dial can be turned, median',
      quantile(loads, 0.5),
      'ms',
    );
    results.clock('start-panel-worst', `the same, worst of ${LOADS}`, Math.max(...loads), 'ms');
  } finally {
    await app.close();
  }
}

/** Notes in the page itself when a dial first shows a running time, so that nobody has to ask in between. */
function noteReady(page: Page): Promise<unknown> {
  return page.addInitScript(() => {
    const look = (): void => {
      const dial = document.querySelector<HTMLInputElement>('[data-dial-field]');
      const isLive = document.querySelector('.lamp[data-look="lit"]') !== null;
      if (!dial || !isLive || !/\d/.test(dial.value) || dial.disabled) return;
      Object.assign(window, { readyAt: performance.now() });
      observer.disconnect();
    };
    const observer = new MutationObserver(look);
    addEventListener('DOMContentLoaded', () =>
      observer.observe(document.body, { subtree: true, childList: true, attributes: true }),
    );
  });
}

async function readyAt(page: Page): Promise<number> {
  const handle = await page.waitForFunction(() => (window as unknown as { readyAt?: number }).readyAt);
  const at = await handle.jsonValue();
  if (at === undefined) throw new Error('never ready');
  return at;
}
