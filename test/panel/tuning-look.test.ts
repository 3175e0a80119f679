/** The parts of tuning that are open only now and then, by the same rules as every screen, in both looks and zoomed. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, inTheme, openBench, settled, ZOOMED } from '../a11y/bench.ts';
import { sideways, tooSmall, violations } from '../a11y/checks.ts';

const [TOUCH, THUMB] = [44, 64];

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
}, 300_000);
afterAll(() => bench?.close());

test('limits, the form for other ones, A and B, a waiting hold, limits that are not sent yet', async () => {
  await bench.show({ name: 'tuning', distance: 'layout', open: async () => {} });
  const { page } = bench;
  await page.keyboard.press('Shift+E');
  await page.getByRole('button', { name: 'Note as A' }).click();
  await page.keyboard.press('Escape');
  await page.locator('#dial-green-1').fill('24');
  await page.keyboard.press('Enter');
  await page.locator('#dial-green-1').blur();
  await page.keyboard.press('Shift+H');
  await page.getByRole('button', { name: /^Limits and more: Green, Fore Street/ }).click();
  await page.getByRole('button', { name: 'Other limits: Green, Fore Street' }).click();
  await page.getByLabel('Greatest: Green, Fore Street').fill('5:00');
  await page.keyboard.press('Enter');
  await page.getByText('Write a reason.').waitFor();
  await look();
  await page.getByLabel('Reason for other limits: Green, Fore Street').fill('A long goods train');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Send the limits' }).waitFor();
  await look();
  expect(await tooSmall(page, THUMB, '.at-hand-commands, .dials .dial, .sets-bar, .unsent')).toEqual([]);
});

async function look(): Promise<void> {
  const { page } = bench;
  for (const theme of ['light', 'dark'] as const) {
    await inTheme(page, theme);
    expect.soft(await violations(page), theme).toEqual([]);
  }
  const { width, height } = page.viewportSize() ?? { width: 1280, height: 720 };
  expect.soft(await tooSmall(page, TOUCH)).toEqual([]);
  await page.setViewportSize(ZOOMED);
  await settled(page);
  expect.soft(await sideways(page)).toEqual([]);
  expect.soft(await violations(page), 'zoomed').toEqual([]);
  await page.setViewportSize({ width, height });
  await settled(page);
}
