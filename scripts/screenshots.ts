/**
 * The pictures of the README: the built panel on the real host with the
 * example on the virtual board, photographed in Chromium.
 * `npx tsx scripts/screenshots.ts` writes them to renderer/pictures.
 */
import { mkdirSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { serve } from '../electron/host/serve.ts';
import { startBrowser } from './setup/chromium.ts';

/** A README is read on slow lines, too, bytes a picture. */
const LARGEST = 300_000;

interface Picture {
  readonly name: string;
  readonly distance: 'room' | 'layout' | 'desk';
  readonly theme: 'dark' | 'light';
  readonly prepare?: (page: Page) => Promise<void>;
}

const PICTURES: readonly Picture[] = [
  { name: 'layout', distance: 'layout', theme: 'dark', prepare: nudge },
  { name: 'room', distance: 'room', theme: 'dark' },
  { name: 'desk', distance: 'desk', theme: 'dark' },
  { name: 'layout-light', distance: 'layout', theme: 'light' },
  { name: 'new-site', distance: 'layout', theme: 'dark', prepare: (page) => sheet(page, 'n', '.offer') },
  { name: 'wiring', distance: 'layout', theme: 'dark', prepare: currents },
  { name: 'lamp-check', distance: 'layout', theme: 'dark', prepare: lampCheck },
  { name: 'phases', distance: 'layout', theme: 'light', prepare: (page) => sheet(page, 'Shift+P', '.live-chart svg') },
];

/** Two seconds more green, not kept yet: planned, running and kept differ. */
async function nudge(page: Page): Promise<void> {
  const longer = page.getByRole('button', { name: 'Longer: Green, Fore Street' });
  await longer.click();
  await longer.click();
  await page.locator('.board-words', { hasText: 'not kept' }).waitFor();
}

async function currents(page: Page): Promise<void> {
  await sheet(page, 'Shift+W', '.slot');
  await page.getByRole('button', { name: 'Currents', exact: true }).click();
}

async function lampCheck(page: Page): Promise<void> {
  await page.keyboard.press('i');
  await page.getByRole('button', { name: /^Check \d+ lamps$/ }).click();
  await page.locator('.check-asking').waitFor();
}

async function sheet(page: Page, key: string, shows: string): Promise<void> {
  await page.keyboard.press(key);
  await page.locator(shows).first().waitFor();
}

async function main(): Promise<number> {
  const root = fileURLToPath(new URL('..', import.meta.url));
  const pictures = join(root, 'renderer', 'pictures');
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-pictures-'));
  mkdirSync(pictures, { recursive: true });
  const panelFolder = join(folder, 'panel');
  await build({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'error',
    build: { outDir: panelFolder, emptyOutDir: true },
  });
  const served = await serve({ version: '0.1.0', panelFolder, dataFolder: join(folder, 'data'), print: () => {} });
  if (!served.ok) throw new Error(served.error);
  const browser = await startBrowser();
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });
  const page = await context.newPage();
  page.setDefaultTimeout(90_000);
  await page.goto(served.address);
  await page.locator('.board-words', { hasText: /kept$/ }).waitFor();
  let failures = 0;
  for (const { name, distance, theme, prepare } of PICTURES) {
    await page.evaluate(
      ([at, look]) => {
        localStorage.setItem('amberwick welcomed', 'yes');
        localStorage.setItem('amberwick distance', at ?? '');
        localStorage.setItem('amberwick theme', look ?? '');
      },
      [distance, theme],
    );
    await page.reload();
    await page.locator('.lamp[data-look="lit"]').first().waitFor();
    await prepare?.(page);
    // Until the figures and the cursor stand where they belong.
    await page.waitForTimeout(1_500);
    const path = join(pictures, `${name}.png`);
    await page.screenshot({ path });
    const { size } = statSync(path);
    console.log(`${name}.png  ${Math.round(size / 1000)} kB`);
    if (size > LARGEST) failures += 1;
  }
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true, force: true });
  return failures;
}

process.exitCode = (await main()) === 0 ? 0 : 1;
process.exit();
