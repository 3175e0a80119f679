/** The built panel on the fake host in a real browser, brought to any screen. */
import { createReadStream, existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import type { Screen } from '../../scripts/screens/screens.ts';
import { startBrowser } from '../../scripts/setup/chromium.ts';

export type Theme = 'dark' | 'light';

export const USUAL = { width: 1280, height: 720 };
/** The same window at 200 % zoom, in CSS pixels. */
export const ZOOMED = { width: 640, height: 360 };

const PATIENCE = 60_000;
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
};

export interface Bench {
  readonly browser: Browser;
  readonly page: Page;
  /** A fresh panel on the screen. */
  show(screen: Screen, options?: ShowOptions): Promise<void>;
  close(): Promise<void>;
}

export interface ShowOptions {
  readonly theme?: Theme;
  readonly welcomed?: boolean;
}

export async function openBench(): Promise<Bench> {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-a11y-'));
  await build({
    root: fileURLToPath(new URL('../panel/page', import.meta.url)),
    configFile: false,
    base: './',
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true, target: 'es2023', assetsInlineLimit: 0, chunkSizeWarningLimit: 5000 },
  });
  const server = await serveFolder(folder);
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const browser = await startBrowser();
  const context = await browser.newContext({ viewport: USUAL, acceptDownloads: true });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(address);
  return {
    browser,
    page,
    show: async (screen, { theme = 'dark', welcomed = true } = {}) => {
      await page.setViewportSize(USUAL);
      await page.evaluate(
        (kept) => {
          localStorage.clear();
          for (const [key, value] of Object.entries(kept)) localStorage.setItem(`amberwick ${key}`, value);
        },
        { theme, distance: screen.distance, welcomed: welcomed ? 'yes' : 'no' },
      );
      await page.goto(address);
      await page.locator('.lamp[data-look="lit"]').first().waitFor();
      await screen.open(page);
      await settled(page);
    },
    close: async () => {
      await browser.close();
      server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Changes the look in place: most screens are the same ones in both. */
export async function inTheme(page: Page, theme: Theme): Promise<void> {
  await page.evaluate((look) => {
    (window as unknown as PageWindow).model.preferences.theme.value = look;
  }, theme);
  await settled(page);
}

/** Two frames later everything that was asked for is drawn. */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await page.waitForTimeout(200);
}

/** What `test/panel/page/main.ts` leaves in the window. */
export interface PageWindow {
  readonly model: import('../../renderer/model/model.ts').Model;
  readonly host: import('../panel/fake-workbench.ts').FakeWorkbench;
}

function serveFolder(folder: string): Promise<Server> {
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent((request.url ?? '/').split('?')[0] ?? '/'));
    const file = join(folder, path === '/' ? 'index.html' : path);
    if (!file.startsWith(folder) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(response);
  });
  return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}
