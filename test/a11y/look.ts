/** What is asked of every screen, in both looks and at 200 % zoom. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { inTheme, settled, ZOOMED } from './bench.ts';
import { COLOURS, moving, outOfReach, sideways, tooFine, tooSmall, violations } from './checks.ts';

/** 2.75rem: `--touch`. */
export const TOUCH = 44;
/** Least height of letters. */
const LETTERS = 14;

/** The rules of axe-core, targets of 44 px, nothing sideways, every control in reach, no motion for those who want none. */
export async function look(page: Page): Promise<void> {
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
