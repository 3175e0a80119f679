/** Every sheet, looked at, and the keyboard back where it was when it is closed. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SCREENS } from '../../scripts/screens/screens.ts';
import { type Bench, openBench, settled, USUAL } from './bench.ts';
import { focused } from './checks.ts';
import { look } from './look.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = bench.page;
  await page.emulateMedia({ reducedMotion: 'reduce' });
}, 300_000);
afterAll(() => bench.close());

const SHEETS = SCREENS.filter(({ sheet }) => sheet !== undefined);

test.each(SHEETS.map((screen) => [screen.name, screen] as const))(
  '%s, and when it is closed the keyboard is back where it was',
  async (_, screen) => {
    await bench.show({ ...screen, open: async () => {} });
    await page.locator('#dial-green-2').focus();
    const before = await focused(page);
    await screen.open(page);
    await settled(page);
    expect(await page.evaluate(() => document.querySelector('.sheet')?.contains(document.activeElement))).toBe(true);
    await look(page);
    await page.setViewportSize(USUAL);
    for (let turn = 0; turn < 3 && (await page.locator('.sheet').count()) > 0; turn++) {
      await page.getByRole('button', { name: 'Close', exact: true }).last().click();
      await settled(page);
    }
    await expect.poll(() => focused(page)).toBe(before);
  },
);
