/** The whole app for a bench: real host and virtual board, the built panel, Chromium. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { serve } from '../../../../electron/host/serve.ts';
import { startBrowser } from '../../../../scripts/setup/chromium.ts';
import { builtPage } from '../../../fixtures/built-panel.ts';

/** Longest wait for anything, ms. */
const PATIENCE = 120_000;

export interface BenchApp {
  readonly address: string;
  readonly browser: Browser;
  readonly page: Page;
  /** From the call of `serve` until its address could be opened, ms. */
  readonly servedAfter: number;
  close(): Promise<void>;
}

/** A window of 1280 x 720 on an app that starts for the first time; `prepare` runs before the panel is loaded. */
export async function benchApp(prepare: (page: Page) => Promise<unknown> = async () => {}): Promise<BenchApp> {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-bench-'));
  const panelFolder = await builtPage();
  const browser = await startBrowser();
  const began = performance.now();
  const served = await serve({ version: '0.0.0', panelFolder, dataFolder: join(folder, 'data'), print: () => {} });
  if (!served.ok) throw new Error(served.error);
  const servedAfter = performance.now() - began;
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  page.on('filechooser', () => {});
  await page.addInitScript(() => localStorage.setItem('amberwick welcomed', 'yes'));
  // What runs this file gives functions their names back by a helper that the page does not have.
  await page.addInitScript('globalThis.__name = (it) => it');
  await prepare(page);
  return {
    address: served.address,
    browser,
    page,
    servedAfter,
    close: async () => {
      await browser.close();
      await served.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}
