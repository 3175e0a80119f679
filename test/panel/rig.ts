/** The whole way: shipped firmware in the virtual board, host, browser transport, built panel, Chromium. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { serve } from '../../electron/host/serve.ts';
import type { SerialPorts } from '../../electron/host/service/ports.ts';
import type { PinWatch } from '../../electron/host/service/virtual-boards.ts';
import { startBrowser } from '../../scripts/setup/chromium.ts';
import { builtPage } from '../fixtures/built-panel.ts';

/** Longest wait for anything to appear, ms. */
const PATIENCE = 90_000;

export interface Rig {
  readonly page: Page;
  /** Everything that the page complained about; empty in good health. */
  readonly complaints: string[];
  readonly folder: string;
  /** The built panel. */
  readonly panelFolder: string;
  close(): Promise<void>;
}

export interface RigOptions {
  readonly onLevels?: PinWatch;
  readonly serial?: SerialPorts;
  /** The cautions of the first start were read before. Default: yes. */
  readonly welcomed?: boolean;
  /** Before the panel is loaded. */
  readonly prepare?: (page: Page) => Promise<unknown>;
}

/** The app as it starts on a fresh machine with nothing plugged in. */
export async function openRig({ onLevels, serial, welcomed = true, prepare }: RigOptions = {}): Promise<Rig> {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-panel-'));
  const panelFolder = await builtPage();
  const served = await serve({
    version: '0.0.0',
    panelFolder,
    dataFolder: join(folder, 'data'),
    print: () => {},
    ...(onLevels ? { onLevels } : {}),
    ...(serial ? { serial } : {}),
  });
  if (!served.ok) throw new Error(served.error);
  const browser = await startBrowser();
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, acceptDownloads: true });
  const page = await context.newPage();
  // Machines that run tests are often busy with something else, too.
  page.setDefaultTimeout(PATIENCE);
  const complaints: string[] = [];
  // From the first listener on the browser hands choosers over instead of opening them; that takes a moment.
  page.on('filechooser', () => {});
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  if (welcomed) await page.addInitScript(() => localStorage.setItem('amberwick welcomed', 'yes'));
  await prepare?.(page);
  await page.goto(served.address);
  return {
    page,
    complaints,
    folder,
    panelFolder,
    close: async () => {
      await browser.close();
      await served.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Waits until the board's line at the top of the view says so. */
export async function boardSays(page: Page, words: string): Promise<void> {
  const found = page.locator('.board-words', { hasText: new RegExp(`^${words}$`) });
  await found.waitFor().catch(async (error: Error) => {
    const shown = await page.locator('.board-words, .happened, .problem').allTextContents();
    throw new Error(`${error.message}\nOn the screen: ${shown.join(' | ')}`);
  });
}

/** Text of the newest line of the log, at the foot of every view. */
export async function happened(page: Page, words: RegExp): Promise<void> {
  await page.locator('.happened', { hasText: words }).waitFor();
}

/** The labels of the running intervals of a site, from now on, as they are shown. */
export async function watchIntervals(page: Page, site: string): Promise<() => Promise<string[]>> {
  await page.evaluate((id) => {
    const label = document.querySelector(`.running-now[data-site="${id}"] .running-label`);
    const seen: string[] = [];
    const note = (): void => {
      const text = label?.textContent ?? '';
      if (seen.at(-1) !== text) seen.push(text);
    };
    note();
    if (label) new MutationObserver(note).observe(label, { childList: true, characterData: true, subtree: true });
    Object.assign(window, { seenIntervals: seen });
  }, site);
  return () => page.evaluate(() => (window as unknown as { seenIntervals: string[] }).seenIntervals);
}
