/** Every kind of site made from its card in a real browser, in at most ten actions; then sent, seen to run, and a button served. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { OFFERS, type Offer } from '../../shared/layout/new-site/offers.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { openTown } from './one-of-each.ts';
import { boardSays, happened, openRig, type Rig, watchIntervals } from './rig.ts';

// An emulated board, a browser and a build: on a busy machine that takes its time.
const LONG = 600_000;

let rig: Rig;
afterEach(() => rig.close());

async function openOwn(page: Page): Promise<void> {
  await boardSays(page, 'runs this layout, kept');
  const file = join(rig.folder, 'parade.json');
  writeFileSync(file, writeLayout(openTown()));
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('o');
  await (await chooser).setFiles(file);
  await page.getByRole('heading', { name: 'Penmarrow Parade' }).waitFor();
}

/** Presses and clicks that a person makes; each counts. */
function person(page: Page) {
  let actions = 0;
  return {
    press: async (key: string): Promise<void> => {
      actions += 1;
      await page.keyboard.press(key);
    },
    click: async (name: string | RegExp, role: 'button' | 'radio' = 'button'): Promise<void> => {
      actions += 1;
      await page.getByRole(role, { name, exact: typeof name === 'string' }).click();
    },
    count: () => actions,
  };
}

/** By the first letter of its name, again and again until its card is chosen. */
async function byKeyboard(page: Page, offer: Offer): Promise<number> {
  const { press, count } = person(page);
  await press('n');
  const card = page.getByRole('radio', { name: offer.name, exact: true });
  await card.waitFor();
  while ((await card.getAttribute('aria-checked')) !== 'true' && count() < 10) {
    await press(offer.name.charAt(0).toLowerCase());
  }
  await press('Enter');
  return count();
}

async function byMouse(page: Page, offer: Offer): Promise<number> {
  const { click, count } = person(page);
  await click('New site');
  await click(offer.name, 'radio');
  await click('Add it');
  return count();
}

test(
  'each kind from its card, keyboard and mouse in turn; all sent at once; the pelican serves its button',
  async () => {
    rig = await openRig();
    const { page } = rig;
    await openOwn(page);

    const actions: [string, number][] = [];
    for (const [index, offer] of OFFERS.entries()) {
      const make = index % 2 === 0 ? byKeyboard : byMouse;
      const counted = await make(page, offer);
      await happened(page, new RegExp(`^Added .+ \\(${offer.name.toLowerCase()}\\)\\.$`));
      // It stands on the plan, and is at hand. Send is one more.
      await expect.poll(() => page.locator('.site').count(), { timeout: 60_000 }).toBe(index + 2);
      await page.locator('.site.at-hand').waitFor();
      actions.push([offer.id, counted + 1]);
    }
    expect(actions.filter(([, count]) => count > 10)).toEqual([]);
    expect(actions).toHaveLength(OFFERS.length);

    // The board of this layout is another one than the example's: it is connected, and gets everything.
    await page.keyboard.press('c');
    await page.getByRole('button', { name: 'Connect Virtual board' }).click();
    await boardSays(page, 'runs nothing');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Shift+S');
    await boardSays(page, 'runs this layout, not kept');
    await page.locator('.lamp[data-look="lit"]').first().waitFor();
    const unknown = await page.locator('.lamp[data-look="unknown"]').count();
    expect(unknown).toBe(0);

    // Somebody presses the pelican's button: vehicles stop, the figure is green, then everything flashes.
    await page.getByRole('button', { name: /pelican, take in hand$/ }).click();
    const site = await page.locator('.running-now').getAttribute('data-site');
    const seen = await watchIntervals(page, site ?? '');
    await page.locator('.running-label', { hasText: 'Vehicles green' }).waitFor();
    await page.getByRole('button', { name: /^Press: .*button$/ }).click({ delay: 400 });
    await page
      .getByRole('img', { name: /^People on the left: green$/ })
      .first()
      .waitFor();
    await expect
      .poll(async () => (await seen()).join(' > '), { timeout: 240_000 })
      .toContain('Vehicles green > Vehicles amber > All red > Green figure');

    expect(rig.complaints).toEqual([]);
  },
  LONG,
);

test(
  'a site is taken away and had again with one key each, and the layout is saved under its name',
  async () => {
    rig = await openRig();
    const { page } = rig;
    await openOwn(page);
    const zebra = OFFERS.find(({ id }) => id === 'zebra');
    if (!zebra) throw new Error('no zebra');
    await byKeyboard(page, zebra);
    await happened(page, /^Added Parade zebra/);
    await page.keyboard.press('Shift+N');
    await happened(page, /^Took Parade zebra away\.$/);
    await expect.poll(() => page.locator('.site').count(), { timeout: 60_000 }).toBe(1);
    await page.keyboard.press('Control+z');
    await happened(page, /^Undid: Took Parade zebra away\.$/);
    await expect.poll(() => page.locator('.site').count(), { timeout: 60_000 }).toBe(2);
    const download = page.waitForEvent('download');
    await page.keyboard.press('Control+s');
    expect((await download).suggestedFilename()).toBe('parade.json');
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
