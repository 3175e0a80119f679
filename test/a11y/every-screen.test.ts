/**
 * Every screen, in both looks and at 200 % zoom: the rules of axe-core, targets of 44 px, nothing sideways, every control
 * in reach, no motion for those who want none, and the keyboard back where it was.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { SCREENS, type Screen } from '../../scripts/screens/screens.ts';
import { type Bench, inTheme, openBench, settled, USUAL, ZOOMED } from './bench.ts';
import { COLOURS, focused, moving, outOfReach, sideways, tooFine, tooSmall, violations } from './checks.ts';
import { STATES, WELCOME } from './states.ts';

/** 2.75rem: `--touch`. */
const TOUCH = 44;
/** Least height of letters. */
const LETTERS = 14;

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
  await look();
}

async function look(): Promise<void> {
  expect.soft(await violations(page), 'dark').toEqual([]);
  expect.soft(await tooSmall(page, TOUCH), 'targets').toEqual([]);
  expect.soft(await tooFine(page, LETTERS), 'letters').toEqual([]);
  expect.soft(await moving(page), 'motion').toEqual([]);
  await inTheme(page, 'light');
  expect.soft(await violations(page, COLOURS), 'light').toEqual([]);
  await page.setViewportSize(ZOOMED);
  await settled(page);
  expect.soft(await violations(page), 'zoomed').toEqual([]);
  expect.soft(await sideways(page), 'zoomed').toEqual([]);
  expect.soft(await tooSmall(page, TOUCH), 'zoomed targets').toEqual([]);
  expect.soft(await outOfReach(page), 'zoomed').toEqual([]);
}

const named = (screens: readonly Screen[]) => screens.map((screen) => [screen.name, screen] as const);

const SHEETS = SCREENS.filter(({ sheet }) => sheet !== undefined);
const OTHERS = [...SCREENS.filter(({ sheet }) => sheet === undefined), ...STATES];

test.each(named(OTHERS))('%s', async (_, screen) => {
  await lookAt(screen);
});

test.each(named(SHEETS))('%s, and when it is closed the keyboard is back where it was', async (_, screen) => {
  await bench.show({ ...screen, open: async () => {} });
  await page.locator('#dial-green-2').focus();
  const before = await focused(page);
  await screen.open(page);
  await settled(page);
  expect(await page.evaluate(() => document.querySelector('.sheet')?.contains(document.activeElement))).toBe(true);
  await look();
  await page.setViewportSize(USUAL);
  for (let turn = 0; turn < 3 && (await page.locator('.sheet').count()) > 0; turn++) {
    await page.getByRole('button', { name: 'Close', exact: true }).last().click();
    await settled(page);
  }
  await expect.poll(() => focused(page)).toBe(before);
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
