/** Every view, every state that circumstances bring about, and the first start, looked at. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SCREENS, type Screen } from '../../scripts/screens/screens.ts';
import { type Bench, openBench, USUAL, ZOOMED } from './bench.ts';
import { moving, outOfReach, sideways, tooSmall, violations } from './checks.ts';
import { look, TOUCH } from './look.ts';
import { STATES, WELCOME } from './states.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = bench.page;
  await page.emulateMedia({ reducedMotion: 'reduce' });
}, 300_000);
afterAll(() => bench.close());

async function lookAt(screen: Screen, welcomed = true): Promise<void> {
  await bench.show(screen, { welcomed });
  await look(page);
}

const OTHERS = [...SCREENS.filter(({ sheet }) => sheet === undefined), ...STATES];

test.each(OTHERS.map((screen) => [screen.name, screen] as const))('%s', async (_, screen) => {
  await lookAt(screen);
});

test('the first start', async () => {
  await lookAt(WELCOME, false);
});

test('the checks find what is wrong', async () => {
  await bench.show({ name: 'bare', distance: 'layout', open: async () => {} });
  await page.evaluate(() => {
    const bad = document.createElement('button');
    bad.setAttribute('style', 'position: fixed; left: 10px; top: 300px; width: 20px; height: 50px; z-index: -1');
    bad.animate([{ opacity: 0 }, { opacity: 1 }], 60_000);
    const wide = document.createElement('p');
    wide.setAttribute('style', 'width: 3000px');
    wide.textContent = 'Wide';
    document.querySelector('main')?.append(bad);
    document.body.append(wide);
  });
  expect((await violations(page)).some((it) => it.startsWith('button-name'))).toBe(true);
  expect((await tooSmall(page, TOUCH)).some((it) => it.endsWith('20 x 50'))).toBe(true);
  expect((await moving(page)).length).toBe(1);
  expect((await outOfReach(page)).length).toBeGreaterThan(0);
  await page.setViewportSize(ZOOMED);
  expect((await sideways(page)).length).toBeGreaterThan(0);
  await page.setViewportSize(USUAL);
});
