/**
 * The pictures of the README: the built panel on the real host with the example on the virtual board, photographed in
 * Chromium in both looks. `npx tsx scripts/screenshots.ts` writes all to renderer/pictures, and takes away those of
 * screens that are no more; with names of screens it writes those only.
 */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { serve } from '../electron/host/serve.ts';
import { quantise } from './screens/palette.ts';
import { readPng, writePng } from './screens/png.ts';
import { LARGEST, pictureOf, SCREENS, type Screen, THEMES } from './screens/screens.ts';
import { startBrowser } from './setup/chromium.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const pictures = join(root, 'renderer', 'pictures');

/** The screen as a reader meets it: fresh, in this look, on Penmarrow as it was kept. */
async function show(page: Page, screen: Screen, theme: (typeof THEMES)[number]): Promise<void> {
  await page.evaluate(
    (kept) => {
      localStorage.clear();
      for (const [key, value] of Object.entries(kept)) localStorage.setItem(`amberwick ${key}`, value);
    },
    { theme, distance: screen.distance, welcomed: 'yes' },
  );
  await page.reload();
  await page.locator('.plan .lamp[data-look="lit"]').first().waitFor();
  await screen.open(page);
  // Until the figures and the cursor stand where they belong.
  await page.waitForTimeout(1_200);
}

/** A check holds the lamps: it is ended, so that the next picture shows the town again. */
async function leave(page: Page, screen: Screen): Promise<void> {
  if (screen.name !== 'checking') return;
  await page.getByRole('button', { name: 'Close', exact: true }).last().click();
  await page.locator('.sheet').waitFor({ state: 'detached' });
}

async function photograph(page: Page, name: string): Promise<boolean> {
  const pixels = readPng(await page.screenshot({ animations: 'disabled' }));
  const { palette, indexes } = quantise(pixels);
  const file = writePng(pixels.width, pixels.height, palette, indexes);
  writeFileSync(join(pictures, name), file);
  const isSmall = file.length <= LARGEST;
  console.log(`${name}  ${Math.round(file.length / 1000)} kB${isSmall ? '' : ', too large'}`);
  return isSmall;
}

async function main(only: readonly string[]): Promise<boolean> {
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
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' });
  const page = await context.newPage();
  page.setDefaultTimeout(90_000);
  await page.goto(served.address);
  await page.locator('.board-words', { hasText: /kept$/ }).waitFor();
  const wanted = SCREENS.filter(({ name }) => only.length === 0 || only.includes(name));
  let isFine = true;
  for (const screen of wanted) {
    for (const theme of THEMES) {
      await show(page, screen, theme);
      isFine = (await photograph(page, pictureOf(screen, theme))) && isFine;
      await leave(page, screen);
    }
  }
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true, force: true });
  if (only.length === 0) removeOthers();
  return isFine;
}

function removeOthers(): void {
  const wanted = new Set(SCREENS.flatMap((screen) => THEMES.map((theme) => pictureOf(screen, theme))));
  for (const name of readdirSync(pictures)) if (!wanted.has(name)) rmSync(join(pictures, name));
}

process.exitCode = (await main(process.argv.slice(2))) ? 0 : 1;
process.exit();
