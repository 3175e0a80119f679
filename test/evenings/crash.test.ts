/** The program dies in the middle of an evening; the next start has everything that was said to be done. */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { startBrowser } from '../../scripts/setup/chromium.ts';
import { builtPage } from '../fixtures/built-panel.ts';
import { Person } from './person.ts';

const LONG = 400_000;
const program = fileURLToPath(new URL('./host.ts', import.meta.url));

let browser: Browser;
let folder: string;
let host: ChildProcess | null = null;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-crash-'));
  browser = await startBrowser();
}, LONG);
afterEach(async () => {
  await browser.close();
  host?.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

/** Amberwick as it starts today, and a page that looks at it. */
async function start(): Promise<Page> {
  const panel = await builtPage();
  const child = fork(program, [panel, folder], { execArgv: ['--import', 'tsx'] });
  host = child;
  const address = await new Promise<string>((resolve, reject) => {
    child.once('message', (told) => resolve(String(told)));
    child.once('exit', (code) => reject(new Error(`the host ended with ${code}`)));
  });
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });
  await context.addInitScript(() => localStorage.setItem('amberwick welcomed', 'yes'));
  const page = await context.newPage();
  page.setDefaultTimeout(90_000);
  await page.goto(address);
  return page;
}

/** No word of farewell: the process is gone from one instruction to the next. */
async function kill(): Promise<void> {
  const child = host;
  if (!child) return;
  const gone = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGKILL');
  await gone;
}

test(
  'killed in mid-edit: the next start opens the layout with its changes, says so, and the board runs what was kept',
  async () => {
    const first = new Person(await start());
    await first.seesBoard('runs this layout, kept');
    await first.setsTime('green-1', '20');
    await first.reads(/Fore Street from 18\.0 s to 20\.0 s/);
    await first.letsGo();
    await first.presses('k');
    await first.reads(/^Kept on Town board/);
    // A pelican comes in, a site goes; nothing of it is saved to a file.
    await first.presses('Shift+N');
    await first.reads(/^Took Market Cross away\.$/);
    await first.presses('Control+z');
    await first.reads(/^Undid: Took Market Cross away\.$/);
    await first.presses('Shift+M');
    await first.page.getByRole('combobox', { name: /^Scale/ }).selectOption('HO');
    await first.reads(/^Chose the scale /);
    await first.presses('Escape');
    // One more time is on its way while the process dies.
    await first.dial('green-1').fill('25');
    await first.page.keyboard.press('Enter');
    await kill();
    // The page that is left says so, and stays.
    await first.page.locator('[data-problem="hostGone"]').first().waitFor();
    expect((await first.page.locator('main').first().textContent())?.length).toBeGreaterThan(10);

    const next = new Person(await start());
    await next.seesTitle('Penmarrow');
    await next.page.getByText('recovered, not saved', { exact: true }).waitFor();
    await next.seesBoard('runs this layout, (other times, )?kept');
    await next.seesTime('green-1', '20.0 s');
    await next.presses('Shift+M');
    expect(await next.page.getByRole('combobox', { name: /^Scale/ }).inputValue()).toBe('HO');
    await next.presses('Escape');
    await next.seesLampsGlow();
    // The evening goes on: a change, and back.
    await next.letsGo();
    await next.presses('Shift+N');
    await next.reads(/^Took Market Cross away\.$/);
    await next.presses('Control+z');
    await next.reads(/^Undid: Took Market Cross away\.$/);
    await expect.poll(() => next.page.locator('.plan .site').count(), { timeout: 60_000 }).toBe(3);
  },
  LONG,
);
