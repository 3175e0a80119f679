/** How much of the screen is touched while a full board runs: 32 sites, 128 lamps. Counts are the same on every computer. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeLayout } from '../../shared/layout/write.ts';
import { openBuilt } from '../fixtures/built-panel.ts';
import { clubLayout, FULL_BOARD } from '../timing/club.ts';
import type { FakeWorkbench } from './fake-workbench.ts';

const LONG = 300_000;

let browser: Browser;
let page: Page;
beforeAll(async () => {
  const opened = await openBuilt('test/panel/page');
  ({ browser, page } = opened);
  await page.goto(opened.address);
  await page.locator('.lamp').first().waitFor();
  await page.evaluate(
    async (text) => {
      const { host } = window as unknown as { host: FakeWorkbench };
      await host.call('openText', { name: 'full-board.json', text });
      const [board] = host.boards;
      board?.connect('virtual:b1');
      board?.start();
    },
    writeLayout(clubLayout(FULL_BOARD)),
  );
  await page.locator('.lamp[data-look="lit"]').nth(16).waitFor();
}, LONG);
afterAll(() => browser?.close());

interface Touched {
  /** Lamps that changed. */
  readonly lamps: number;
  /** What else was touched within the plan: element and attribute, or that elements came or went. */
  readonly others: Readonly<Record<string, number>>;
  /** Changes all over the page that are no lamps, for each frame that was drawn. */
  readonly aFrame: number;
}

/** While so many lamps change. */
function touchedWhile(lamps: number): Promise<Touched> {
  return page.evaluate(async (wanted) => {
    const others: Record<string, number> = {};
    let changed = 0;
    let elsewhere = 0;
    let frames = 0;
    const plan = document.querySelector('svg.town');
    const observer = new MutationObserver((records) => {
      for (const { target, attributeName, type } of records) {
        const isOfPlan = plan?.contains(target) === true;
        if (attributeName === 'data-look') changed++;
        else if (isOfPlan) {
          const what = `${(target as Element).getAttribute?.('class') ?? target.nodeName} ${attributeName ?? type}`;
          others[what] = (others[what] ?? 0) + 1;
        } else elsewhere++;
      }
    });
    observer.observe(document.body, { attributes: true, childList: true, characterData: true, subtree: true });
    while (changed < wanted) {
      await new Promise((done) => requestAnimationFrame(done));
      frames++;
    }
    observer.disconnect();
    return { lamps: changed, others, aFrame: elsewhere / frames };
  }, lamps);
}

test('128 lamps are live', async () => {
  expect(await page.locator('.lamp:not([data-look="unknown"])').count()).toBe(128);
});

test.each([
  ['1', 'room'],
  ['2', 'layout'],
  ['3', 'desk'],
])(
  'view %s (%s): a lamp that changes touches itself and the name of its head, nothing else of the plan',
  async (key, name) => {
    await page.keyboard.press(key);
    await page.locator(`.app.at-${name} .lamp`).first().waitFor();
    await page.waitForTimeout(500);
    const { lamps, others, aFrame } = await touchedWhile(200);
    console.log(`${name}: ${lamps} lamps, ${aFrame.toFixed(1)} other changes a frame, ${JSON.stringify(others)}`);
    const known = Object.keys(others).filter((what) => !/ aria-label$/.test(what));
    expect(known).toEqual([]);
    expect(Object.values(others).reduce((sum, count) => sum + count, 0)).toBeLessThanOrEqual(1.1 * lamps);
    // Seconds left, the mark on the chart: a handful of texts and lines.
    expect(aFrame).toBeLessThan(30);
  },
  LONG,
);
