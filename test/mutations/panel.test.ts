/**
 * Files that went wrong, opened in the real panel in a browser: the screen is never blank. `AMBERWICK_OPENED` and
 * `AMBERWICK_SEED` make it more and other ones.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBuilt } from '../fixtures/built-panel.ts';
import { extremeFiles } from './extremes.ts';
import { judge, textOf } from './judge.ts';
import { mutatedFile } from './mutate.ts';

const FILES = Number(process.env.AMBERWICK_OPENED ?? 20);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
const LONG = 36_000_000;

let browser: Browser;
let page: Page;
const complaints: string[] = [];

beforeAll(async () => {
  const opened = await openBuilt('test/mutations/page');
  ({ browser, page } = opened);
  page.on('filechooser', () => {});
  page.on('pageerror', (error) => complaints.push(`${error.stack}`));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  await page.goto(opened.address);
  await page.locator('main').first().waitFor();
}, LONG);
afterAll(() => browser?.close());

const walk = (): Promise<string[]> => page.evaluate(() => (window as unknown as { walk(): Promise<string[]> }).walk());
const title = (): Promise<string | null> => page.locator('h1').first().textContent();

test(
  'the walk goes over a sound town without a complaint',
  async () => {
    expect(await walk()).toEqual([]);
    expect(complaints.splice(0)).toEqual([]);
  },
  LONG,
);

test(
  `${FILES} mutated files leave something on the screen that can be used`,
  async () => {
    const failures: string[] = [];
    const opened = { opened: 0, refused: 0 };
    for (let at = 0; at < FILES; at++) {
      const seed = SEED * 2_000_003 + at;
      const { name, bytes, what } = mutatedFile(seed);
      const before = await title();
      const isRefused = judge(name, textOf(bytes)) === 'refused';
      opened[isRefused ? 'refused' : 'opened']++;
      await choose(name, bytes);
      if (isRefused) {
        await page.locator('[data-problem="layoutUnreadable"]').waitFor();
        if ((await title()) !== before) failures.push(`seed ${seed} (${what}): what was open has gone`);
        await page.keyboard.press('Escape');
      } else await page.locator('.file h2', { hasText: name }).waitFor();
      // After a refusal everything is as before: that was walked over already.
      const wrong = isRefused && at % 10 > 0 ? [] : await walk();
      wrong.push(...complaints.splice(0));
      if (wrong.length > 0) failures.push(`seed ${seed} (${what}): ${wrong.join('\n')}`.slice(0, 1500));
    }
    console.log(`${FILES} files from seed ${SEED}: ${JSON.stringify(opened)}`);
    expect(failures).toEqual([]);
    expect(opened.opened).toBeGreaterThan(0);
    expect(opened.refused).toBeGreaterThan(0);
  },
  LONG,
);

const EVERY = process.env.AMBERWICK_OPENED ? 1 : 8;

test(
  'a number that is as small or as large as it may be leaves something on the screen that can be used',
  async () => {
    const files = extremeFiles();
    const failures: string[] = [];
    for (const [at, { name, bytes, what }] of files.entries()) {
      if (at % EVERY !== SEED % EVERY) continue;
      await choose(name, bytes);
      await page.locator('.file h2', { hasText: name }).waitFor();
      const wrong = [...(await walk()), ...complaints.splice(0)];
      if (wrong.length > 0) failures.push(`${what}: ${wrong.join('\n')}`.slice(0, 1500));
    }
    console.log(`${files.length} numbers at their least or greatest, one in ${EVERY} of them opened`);
    expect(failures).toEqual([]);
    expect(files.length).toBeGreaterThan(40);
  },
  LONG,
);

/** As a person opens a file: a command, then the browser's chooser. */
async function choose(name: string, buffer: Uint8Array): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('o');
  await (await chooser).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(buffer) });
}
