/** A part of the screen that is broken on purpose, in a browser: it says so, the rest goes on, and there is a way on. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Model } from '../../renderer/model/model.ts';
import penmarrow from '../../shared/layout/examples/penmarrow.json?raw';
import { openBuilt } from '../fixtures/built-panel.ts';

const LONG = 300_000;

let browser: Browser;
let address: string;
let page: Page;
beforeAll(async () => {
  ({ browser, page, address } = await openBuilt('test/panel/page'));
}, LONG);
afterAll(() => browser?.close());

beforeEach(async () => {
  await page.goto(address);
  // Where one stood in the test before is remembered.
  await page.keyboard.press('2');
  await page.locator('.app.at-layout .lamp[data-look="lit"]').first().waitFor();
}, LONG);

/** From now on, whatever reads this part of the model fails. */
async function spoil(part: keyof Model): Promise<void> {
  await page.evaluate((name) => {
    const { model } = window as unknown as { model: Record<string, unknown> };
    const sound = model[name];
    Object.defineProperty(model, name, {
      configurable: true,
      get() {
        throw new Error(`The ${name} are gone.`);
      },
    });
    Object.assign(window, {
      mend() {
        Object.defineProperty(model, name, { configurable: true, value: sound });
      },
    });
  }, part);
}

const mend = (): Promise<void> => page.evaluate(() => (window as unknown as { mend(): void }).mend());

const broken = (part: string) => page.getByRole('alert').filter({ hasText: `${part} could not be drawn` });

test('a view that cannot be drawn leaves everything around it, and another view is one key away', async () => {
  await spoil('roomDials');
  await page.keyboard.press('1');
  const words = broken('This view');
  await words.waitFor();
  expect(await words.textContent()).toContain('The roomDials are gone.');
  expect(await page.locator('main').count()).toBe(1);
  expect(await page.getByRole('navigation', { name: 'Distance' }).isVisible()).toBe(true);
  expect(await page.locator('footer.foot').isVisible()).toBe(true);
  // What is broken stays broken however often it is drawn, and says so each time.
  await words.getByRole('button', { name: 'Draw it again' }).click();
  await words.waitFor();

  await page.keyboard.press('2');
  await words.waitFor({ state: 'detached' });
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  await mend();
  await page.keyboard.press('1');
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  expect(await words.count()).toBe(0);
});

test('a view that failed once is drawn again at a press, with the lamps going on', async () => {
  await spoil('roomDials');
  await page.keyboard.press('1');
  await broken('This view').waitFor();
  await mend();
  await broken('This view').getByRole('button', { name: 'Draw it again' }).click();
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  expect(await page.getByRole('alert').count()).toBe(0);
});

test('a sheet that cannot be drawn leaves the view, and closes', async () => {
  await spoil('keeps');
  await page.keyboard.press('Shift+B');
  await broken('This sheet').waitFor();
  expect(await page.locator('.lamp[data-look="lit"]').count()).toBeGreaterThan(0);
  await page.keyboard.press('Escape');
  await broken('This sheet').waitFor({ state: 'detached' });
  expect(await page.locator('aside.sheet').count()).toBe(0);
});

test('what a change has broken is drawn again when the change is undone', async () => {
  const title = () => page.locator('h1').first().textContent();
  const before = await title();
  await page.keyboard.press('1');
  await page.evaluate(() => {
    const { model } = window as unknown as { model: Model };
    const sound = model.roomDials;
    Object.defineProperty(model, 'roomDials', {
      get() {
        if (model.text.peek()?.includes('Penmarrow by night')) throw new Error('There is no night here.');
        return sound;
      },
    });
  });
  const text = penmarrow.replace('"Penmarrow"', '"Penmarrow by night"');
  await page.evaluate(async (night) => {
    const { model } = window as unknown as { model: Model };
    await model.ask('openText', { name: 'night.json', text: night });
  }, text);
  const words = broken('This view');
  await words.waitFor();
  expect(await title()).toBe('Penmarrow by night');
  await words.getByRole('button', { name: 'Undo the last change' }).click();
  await words.waitFor({ state: 'detached' });
  expect(await title()).toBe(before);
  await page.locator('.lamp').first().waitFor();
});

test('where even the panel around the views fails, there is a way back to the example', async () => {
  await spoil('log');
  await page.locator('nav.distances button').first().click();
  const words = broken('The panel');
  await words.waitFor();
  await mend();
  await words.getByRole('button', { name: 'Begin again with Penmarrow' }).click();
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  expect(await words.count()).toBe(0);
});
