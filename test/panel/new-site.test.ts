/**
 * Sites in a real browser: every kind made from its card in at most ten actions; all sent, seen to run, and a
 * button served; times turned on the phase chart, and greens shared out by traffic.
 */
import { readFileSync, writeFileSync } from 'node:fs';
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
    await page.getByLabel('Speed').selectOption('5');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Shift+S');
    await boardSays(page, 'runs this layout, not kept');
    await page.locator('.lamp[data-look="lit"]').first().waitFor();
    const unknown = await page.locator('.lamp[data-look="unknown"]').count();
    expect(unknown).toBe(0);

    // Somebody presses the pelican's button: vehicles stop, the figure is green, then everything flashes.
    await page
      .getByRole('button', { name: /pelican, take in hand$/ })
      .locator('circle')
      .click();
    const site = await page.locator('.running-now').getAttribute('data-site');
    const seen = await watchIntervals(page, site ?? '');
    await page.locator('.running-label', { hasText: 'Vehicles green' }).waitFor();
    await page.getByRole('button', { name: /^Press: .*button$/ }).click({ delay: 400 });
    await page
      .getByRole('button', { name: /^People on the left: green$/ })
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
    // The log tells it a moment before the site is at hand and the sheet is gone.
    await page.locator('.site.at-hand', { hasText: 'Parade zebra' }).waitFor();
    await expect.poll(() => page.locator('.sheet').count(), { timeout: 60_000 }).toBe(0);
    await page.keyboard.press('Shift+N');
    await happened(page, /^Took Parade zebra away\.$/);
    await expect.poll(() => page.locator('.site').count(), { timeout: 60_000 }).toBe(1);
    await page.keyboard.press('Control+z');
    await happened(page, /^Undid: Took Parade zebra away\.$/);
    await expect.poll(() => page.locator('.site').count(), { timeout: 60_000 }).toBe(2);
    const download = page.waitForEvent('download');
    await page.keyboard.press('Control+s');
    await page.getByRole('button', { name: 'Save a copy' }).click();
    expect((await download).suggestedFilename()).toBe('parade.json');
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);

test(
  'handles of the phase chart turn dials by mouse and by keyboard, the chart is saved, greens are shared out by traffic',
  async () => {
    rig = await openRig();
    const { page } = rig;
    await boardSays(page, 'runs this layout, kept');
    await page.keyboard.press('Shift+P');
    const handle = page.getByRole('slider', { name: 'Green, Fore Street' });
    const value = async (): Promise<number> => Number(await handle.getAttribute('aria-valuenow'));
    await handle.waitFor();
    expect([await value(), await handle.getAttribute('aria-valuemin')]).toEqual([18, '7']);

    // By mouse: to the right makes it longer, and says the limits.
    const box = await handle.locator('.aw-hit').boundingBox();
    if (!box) throw new Error('no handle');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 60, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    await page.locator('.live-told', { hasText: /^Green, Fore Street: 2\d\.0 s, from 7\.0 s to/ }).waitFor();
    const longer = await value();
    expect(longer).toBeGreaterThan(18);
    await happened(page, new RegExp(`${longer}\\.0 s`));

    // By keyboard, twice: the handle keeps the keyboard while the chart is drawn anew.
    await handle.focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await expect.poll(value, { timeout: 30_000 }).toBe(longer - 2);

    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as picture' }).click();
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('market-cross-phases.svg');
    expect(readFileSync(await saved.path(), 'utf8')).toContain('Market Cross: cycle');

    await page.keyboard.press('Escape');
    await page.keyboard.press('v');
    await page.locator('.traffic').getByLabel('Fore Street').fill('600');
    await page.locator('.traffic').getByLabel('Quay Hill').fill('200');
    await page.getByLabel('Cycle to watch').fill('60');
    // 60 s less 10 s lost, shared 3 to 1, are 37.5 and 12.5 s effective: 36.5 and 11.5 s on the heads.
    await expect
      .poll(() => page.locator('.new-green').allTextContents(), { timeout: 30_000 })
      .toEqual(['37.0 s', '11.0 s']);
    await page.keyboard.press('Enter');
    await happened(
      page,
      /^Shared out the greens of Market Cross by traffic: Fore Street 37\.0 s, Quay Hill 11\.0 s\.$/,
    );
    await boardSays(page, 'runs this layout, other times, not kept');

    // The street of both junctions on the longer of their cycles.
    await page.keyboard.press('g');
    await page.locator('.aw-drawing', { hasText: 'Fore Street: cycle 1:00' }).waitFor();
    await page.getByRole('button', { name: 'Take these offsets' }).click();
    await happened(page, /^Put Fore Street on one cycle of 1:00/);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
