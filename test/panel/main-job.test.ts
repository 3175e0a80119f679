/** The main job through the panel in a real browser: by mouse, and again by keyboard only. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { PENMARROW } from './example.ts';
import { boardSays, happened, openRig, type Rig, watchIntervals } from './rig.ts';

/** One cycle of Market Cross, by its labels. */
const CYCLE = [
  'Fore Street green',
  'Fore Street amber',
  'All red',
  'Quay Hill red with amber',
  'Quay Hill green',
  'Quay Hill amber',
  'All red',
  'Fore Street red with amber',
  'Fore Street green',
];

// Two emulated boards, a browser and a build: on a busy machine that takes its time.
const LONG = 400_000;

let rig: Rig;
afterEach(() => rig.close());

/** Penmarrow with a green of 20 s at Market Cross. */
function ownFile(folder: string): string {
  const layout = JSON.parse(PENMARROW);
  layout.name = 'Penmarrow Green';
  layout.sites[0].stages[0].green = 20;
  const file = join(folder, 'penmarrow-green.json');
  writeFileSync(file, JSON.stringify(layout, null, 2));
  return file;
}

const green = (page: Page) => page.locator('[data-dial="green-1"]');
const greenTime = (page: Page) => page.locator('#dial-green-1').inputValue();

/** What stands beside the dial: planned and kept, those that differ from the running time in bold. */
async function told(page: Page): Promise<{ all: string[]; differs: string[] }> {
  const spans = green(page).locator('.told span');
  return {
    all: await spans.allTextContents(),
    differs: await green(page).locator('.told .differs').allTextContents(),
  };
}

async function waitForCycle(seen: () => Promise<string[]>): Promise<void> {
  await expect.poll(async () => hasCycle(await seen()), { timeout: 90_000, interval: 200 }).toBe(true);
}

function hasCycle(seen: readonly string[]): boolean {
  const from = Math.max(0, seen.indexOf(CYCLE[0] ?? '', 1));
  return CYCLE.every((label, at) => seen[from + at] === label);
}

interface Line {
  readonly number: number;
  readonly kind: string;
  readonly text: string;
}

function readBack(text: string): Line[] {
  return text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Line);
}

function checkLog(lines: readonly Line[]): void {
  expect(lines.map(({ number }) => number)).toEqual(lines.map((_, at) => at + 1));
  const told = lines.filter(({ kind }) => ['document', 'upload', 'nudge', 'keep', 'power', 'remark'].includes(kind));
  const own = told.slice(told.findIndex(({ text }) => text.includes('penmarrow-green.json')));
  expect(own.map(({ kind }) => kind)).toEqual([
    'document',
    'upload',
    'nudge',
    'nudge',
    'keep',
    'power',
    'power',
    'remark',
  ]);
  expect(own[2]?.text).toContain('20.0 s');
  expect(own[3]?.text).toContain('22.0 s');
  expect(own.at(-1)?.text).toBe('Looks right from the station.');
}

test(
  'by mouse: open, send, watch a cycle, nudge, keep, cut the power, start again, read the log',
  async () => {
    rig = await openRig({ welcomed: false });
    const { page } = rig;
    await page.getByRole('button', { name: 'Begin' }).click();
    await boardSays(page, 'runs this layout, kept');

    // Open a layout of one's own: the board is not touched by that.
    await page.getByRole('button', { name: 'Desk', exact: true }).click();
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Open a layout' }).click();
    await (await chooser).setFiles(ownFile(rig.folder));
    await page.getByRole('heading', { name: 'Penmarrow Green' }).waitFor();
    await boardSays(page, 'runs this layout, other times, kept');

    await page.getByRole('button', { name: 'Send', exact: true }).click();
    await boardSays(page, 'runs this layout, not kept');

    // A full cycle at speed.
    await page.getByLabel('Speed').selectOption('10');
    await page.getByRole('button', { name: 'Layout', exact: true }).click();
    await waitForCycle(await watchIntervals(page, 'market-cross'));
    await page.getByRole('button', { name: /^Town board/ }).click();
    await page.getByLabel('Speed').selectOption('1');
    await page.getByRole('button', { name: 'Close', exact: true }).click();

    // Nudge while it runs: planned, running and kept stand apart.
    await green(page)
      .getByRole('button', { name: /^Longer/ })
      .click();
    await happened(page, /21\.0 s/);
    await green(page)
      .getByRole('button', { name: /^Longer/ })
      .click();
    await happened(page, /22\.0 s/);
    expect(await greenTime(page)).toBe('22.0 s');
    expect(await told(page)).toEqual({
      all: ['planned 20.0 s', 'kept 18.0 s'],
      differs: ['planned 20.0 s', 'kept 18.0 s'],
    });
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await happened(page, /^Kept on Town board/);
    await expect.poll(async () => (await told(page)).differs, { timeout: 30_000 }).toEqual(['planned 20.0 s']);

    // The power fails; what was kept runs again.
    await page.getByRole('button', { name: /^Town board/ }).click();
    await page.getByRole('switch').click();
    await boardSays(page, 'switched off');
    expect(await page.locator('.lamp:not([data-look="unknown"])').count()).toBe(0);
    await page.getByRole('switch').click();
    await boardSays(page, 'runs this layout, other times, kept');
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    expect(await greenTime(page)).toBe('22.0 s');

    // The log, read back from its file.
    await page.getByRole('button', { name: 'Desk', exact: true }).click();
    await page.getByLabel('Remark').fill('Looks right from the station.');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await page.locator('.log-entries', { hasText: 'Looks right from the station.' }).waitFor();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the log' }).click();
    checkLog(readBack(readFileSync(await (await download).path(), 'utf8')));
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);

test(
  'by keyboard only: the same',
  async () => {
    rig = await openRig({ welcomed: false });
    const { page } = rig;
    const keys = page.keyboard;
    await page.getByRole('button', { name: 'Begin' }).waitFor();
    await keys.press('Enter');
    await boardSays(page, 'runs this layout, kept');

    const chooser = page.waitForEvent('filechooser');
    await keys.press('o');
    await (await chooser).setFiles(ownFile(rig.folder));
    await page.getByRole('heading', { name: 'Penmarrow Green' }).waitFor();
    await boardSays(page, 'runs this layout, other times, kept');
    await keys.press('Shift+S');
    await boardSays(page, 'runs this layout, not kept');

    const seen = await watchIntervals(page, 'market-cross');
    for (let step = 0; step < 3; step++) await keys.press('.');
    await waitForCycle(seen);
    for (let step = 0; step < 3; step++) await keys.press(',');

    // The dial is reached with the tabulator like everything else.
    for (let turn = 0; turn < 60; turn++) {
      if ((await page.evaluate(() => document.activeElement?.id)) === 'dial-green-1') break;
      await keys.press('Tab');
    }
    await keys.press('ArrowUp');
    await happened(page, /21\.0 s/);
    await keys.type('22');
    await keys.press('Enter');
    await happened(page, /22\.0 s/);
    expect(await greenTime(page)).toBe('22.0 s');
    await keys.press('k');
    await happened(page, /^Kept on Town board/);

    await keys.press('w');
    await boardSays(page, 'switched off');
    await keys.press('w');
    await boardSays(page, 'runs this layout, other times, kept');
    expect(await greenTime(page)).toBe('22.0 s');

    await keys.press('m');
    await page.waitForFunction(() => document.activeElement?.id === 'remark');
    await keys.type('Looks right from the station.');
    await keys.press('Enter');
    await page.locator('.log-entries', { hasText: 'Looks right from the station.' }).waitFor();
    await keys.press('Tab');
    const download = page.waitForEvent('download');
    await keys.press('l');
    checkLog(readBack(readFileSync(await (await download).path(), 'utf8')));
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
