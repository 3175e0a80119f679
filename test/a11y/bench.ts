/** The built panel on the fake host in a real browser, brought to any screen. */
import type { Browser, Page } from 'playwright-core';
import type { Screen } from '../../scripts/screens/screens.ts';
import { openBuilt } from '../fixtures/built-panel.ts';

export type Theme = 'dark' | 'light';

export const USUAL = { width: 1280, height: 720 };
/** The same window at 200 % zoom, in CSS pixels. */
export const ZOOMED = { width: 640, height: 360 };

const PATIENCE = 60_000;

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
  const { browser, page, address } = await openBuilt('test/panel/page', { welcomed: false });
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
    close: () => browser.close(),
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
