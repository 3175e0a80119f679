/** An evening's log in a real browser on the real host: read, filtered, corrected, with photos, saved; other evenings, too. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { keep, logOf, nudge, type Told } from '../story/build.ts';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

const LONG = 300_000;

let rig: Rig;
let page: Page;
beforeAll(async () => {
  rig = await openRig();
  page = rig.page;
  await boardSays(page, 'runs this layout, kept');
}, LONG);
afterAll(() => rig.close());

const story = () => page.locator('.story .beat-words > p:first-child').allTextContents();
const press = (name: string | RegExp) =>
  page
    .locator('.sheet')
    .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
    .click();
const saved = async (name: string) => {
  const download = page.waitForEvent('download');
  await press(name);
  const file = await download;
  return { name: file.suggestedFilename(), text: readFileSync(await file.path(), 'utf8') };
};
/** Writes another evening into the folder of sessions. */
function evening(name: string, ...told: readonly Told[]): void {
  const text = logOf(...told).map((entry) => `${JSON.stringify(entry)}\n`);
  writeFileSync(join(rig.folder, 'data', 'sessions', name), text.join(''));
}

test('what was tuned stands in one sentence, and what is not kept on top', async () => {
  for (let turn = 0; turn < 3; turn++) await page.getByRole('button', { name: 'Longer: Green, Fore Street' }).click();
  await happened(page, /21\.0 s/);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press('z');
  await page.locator('.since li').waitFor();
  expect(await page.locator('.since li').allTextContents()).toEqual([
    'Market Cross green of Fore Street: 18.0 s to 21.0 s, 3.0 s longer, in three changes',
  ]);
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('since-keep');
  await expect
    .poll(async () => (await story()).at(-1))
    .toBe('Changed Market Cross green of Fore Street from 18.0 s to 21.0 s in three changes.');
  // The entries that it is made of, when they are wanted.
  await page.locator('.folded summary').last().click();
  await expect.poll(() => page.locator('.folded li').allTextContents()).toHaveLength(3);
});

test('a note of several lines is written and corrected by keyboard; both versions stay', async () => {
  await page.locator('.story').focus();
  await page.keyboard.press('m');
  await page.waitForFunction(() => document.activeElement?.id === 'note');
  await page.keyboard.type('The amber looks shrot.');
  await page.keyboard.press('Shift+Enter');
  await page.keyboard.type('From the station.');
  await page.keyboard.press('Enter');
  await page.locator('.beat[data-kind="remark"]', { hasText: 'shrot' }).waitFor();
  const correct = page.getByRole('button', { name: /^Correct: The amber/ });
  await correct.focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.id.startsWith('correct-'));
  await page.keyboard.press('Control+a');
  await page.keyboard.type('The amber looks short.');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await story()).at(-1)).toBe('The amber looks short. (corrected later)');
  await page.waitForFunction(() => document.activeElement?.id.endsWith('-open'));
  // Escape leaves the words as they are, and the sheet where it is.
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.tagName === 'TEXTAREA');
  await page.keyboard.press('Escape');
  await page.waitForFunction(() => document.activeElement?.id.endsWith('-open'));
  expect(await page.locator('.sheet').count()).toBe(1);
});

test('a dropped photo has a name only and says so; a typed path is noted', async () => {
  const data = await page.evaluateHandle(() => {
    const transfer = new DataTransfer();
    transfer.items.add(new File(['x'], 'market-cross.jpg', { type: 'image/jpeg' }));
    return transfer;
  });
  await page.dispatchEvent('.logbook', 'drop', { dataTransfer: data });
  const path = page.getByLabel('Path of the photo');
  await expect.poll(() => path.inputValue()).toBe('market-cross.jpg');
  await page.locator('.log-part [role="status"]', { hasText: 'Only its name is known here' }).waitFor();
  await path.fill('/home/ann/photos/market-cross.jpg');
  await page.getByLabel('Words with the photo').fill('From the north');
  await page.keyboard.press('Enter');
  await page.locator('.beat[data-kind="photo"]').waitFor();
  expect((await story()).at(-1)).toBe('Photo /home/ann/photos/market-cross.jpg: From the north');
  // What is no photo is refused, and what was typed stays.
  await path.fill('/etc/passwd');
  await page.keyboard.press('Enter');
  await page.locator('.log-part [role="alert"]', { hasText: 'No photo was noted.' }).waitFor();
  expect(await path.inputValue()).toBe('/etc/passwd');
});

test('filters and search show what is wanted, mark it, and say politely how much that is', async () => {
  await press('Notes');
  await expect
    .poll(story)
    .toEqual(['The amber looks short. (corrected later)', 'Photo /home/ann/photos/market-cross.jpg: From the north']);
  await page.getByLabel('Search the log').fill('AMBER shor');
  await expect.poll(() => page.locator('.story mark').allTextContents()).toEqual(['amber', 'shor']);
  await page.locator('.log-filters [role="status"]', { hasText: /^\d+ of \d+ entries$/ }).waitFor();
  // Escape empties the words first.
  await page.keyboard.press('Escape');
  await expect.poll(() => page.getByLabel('Search the log').inputValue()).toBe('');
  expect(await page.locator('.sheet').count()).toBe(1);
});

test('the log is saved as a text, a table and lines: what is shown, or everything', async () => {
  await press('Save as a file');
  const part = await saved('As a text');
  expect(part.name).toMatch(/Z-part\.txt$/);
  expect(part.text).toContain('(only notes)');
  expect(part.text).not.toContain('Changed Market Cross');
  await press('Show everything');
  const text = await saved('As a text');
  expect(text.text.split('\n').filter((line) => line.length > 100)).toEqual([]);
  expect(text.text).toContain('in three changes');
  const lines = await saved('As JSON Lines');
  const entries = lines.text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(entries.map(({ number }) => number)).toEqual(entries.map((_, at) => at + 1));
  expect(entries.filter(({ kind }) => kind === 'remark').map(({ text }) => text)).toEqual([
    'The amber looks shrot.\nFrom the station.',
    'The amber looks short.',
  ]);
  const table = await saved('As a table');
  expect(table.name.endsWith('.csv')).toBe(true);
  // Lines within quotes are no ends of rows.
  expect(
    table.text
      .replace(/"(""|[^"])*"/g, '')
      .trim()
      .split('\r\n'),
  ).toHaveLength(entries.length + 1);
  await press('Save as a file');
});

test('other evenings are listed, searched and read; a damaged one is named', async () => {
  evening(
    '2025-11-24T19-00-00Z.jsonl',
    [0, 'start', 'Amberwick 1.2.3 started.'],
    [60, 'document', 'Opened old-bridge.json.'],
    [600, 'remark', 'The zebra is too slow.'],
    [7800, 'end', 'Amberwick was closed.'],
  );
  writeFileSync(join(rig.folder, 'data', 'sessions', '2025-11-25T19-00-00Z.jsonl'), 'half a li');
  await press('Earlier sessions');
  await expect.poll(() => page.locator('.session').count()).toBe(2);
  const listed = await page.locator('.session-words').allTextContents();
  expect(listed[0]).toMatch(/no entries, not closed, one line damaged$/);
  expect(listed[1]).toMatch(/2 hours 10 minutes, four entries, old-bridge$/);
  await page.getByLabel('Search all earlier sessions').fill('zebra');
  await page.keyboard.press('Enter');
  await page.locator('[role="status"]', { hasText: 'Found one entry in 1 of 2 sessions.' }).waitFor();
  await press(/^Read .* 2026/);
  await expect.poll(() => page.locator('.story mark').allTextContents()).toEqual(['zebra']);
  // What is past is not written over.
  expect(await page.getByRole('button', { name: /^Correct/ }).count()).toBe(0);
  await press('Back to the list');
  await page.locator('.session').first().waitFor();
});

test('ten thousand entries: at most 200 sentences are drawn, whatever is done', async () => {
  const told = Array.from({ length: 10_000 }, (_, at): Told => {
    if (at % 50 === 49) return keep(at);
    return at % 2 === 0 ? [at, 'remark', `Note ${at}.`] : nudge(at, 18, 19);
  });
  evening('2024-11-30T19-00-00Z.jsonl', ...told);
  await press('Show the list');
  await press('This session');
  await press('Earlier sessions');
  await page.locator('.session', { hasText: '10,000 entries' }).getByRole('button').click();
  const drawn = () => page.locator('.story .beat').count();
  await expect.poll(drawn).toBe(200);
  expect((await story()).at(-1)).toMatch(/^Kept on Town board/);
  await press(/^Older: 9800 before this$/);
  await expect.poll(() => page.getByRole('button', { name: 'Newer: 180 after this' }).count()).toBe(1);
  expect(await drawn()).toBe(200);
  await page.getByLabel('Go to a chapter').selectOption({ index: 3 });
  await expect.poll(() => page.locator('.story .beat').first().getAttribute('data-key')).toBe('102');
  expect(await page.evaluate(() => document.activeElement?.className)).toBe('story');
  await page.getByLabel('Search the log').fill('note 12');
  await expect.poll(() => page.locator('.log-count').textContent()).toMatch(/^\d+ of 10,000 entries$/);
  expect(await drawn()).toBeLessThanOrEqual(200);
});

test('what happens is added; what stands there is not drawn anew', async () => {
  await press('This session');
  await page.evaluate(() => {
    const seen = { added: 0, removed: 0 };
    Object.assign(window, { seen });
    const list = document.querySelector('.story');
    const observer = new MutationObserver((changes) => {
      for (const { addedNodes, removedNodes } of changes) {
        seen.added += addedNodes.length;
        seen.removed += removedNodes.length;
      }
    });
    if (list) observer.observe(list, { childList: true, subtree: true });
  });
  await press('Write a note');
  await page.getByLabel('Your note').fill('One more.');
  await page.keyboard.press('Enter');
  await page.locator('.beat', { hasText: 'One more.' }).waitFor();
  const { added, removed } = await page.evaluate(
    () => (window as unknown as { seen: { added: number; removed: number } }).seen,
  );
  expect(removed).toBe(0);
  expect(added).toBeLessThanOrEqual(2);
});

test('at 200 % zoom nothing is lost sideways, and every target keeps its size', async () => {
  await page.setViewportSize({ width: 640, height: 360 });
  for (const name of ['Write a note', 'Add a photo', 'Save as a file']) {
    await press(name);
    const sheet = page.locator('.sheet');
    expect(await sheet.evaluate((it) => it.scrollWidth - it.clientWidth)).toBe(0);
    const small = await page.locator('.sheet :is(button, input, select, textarea, summary)').evaluateAll((all) =>
      all
        .filter((it) => it.getClientRects().length > 0)
        .filter((it) => Math.min(it.getBoundingClientRect().width, it.getBoundingClientRect().height) < 43.9)
        .map((it) => it.outerHTML.slice(0, 80)),
    );
    expect(small).toEqual([]);
  }
  await page.setViewportSize({ width: 1280, height: 720 });
  expect(rig.complaints).toEqual([]);
});
