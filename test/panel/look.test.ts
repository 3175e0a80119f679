/** What the eye and the thumb need, measured in a real browser on the real host. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { boardSays, openRig, type Rig } from './rig.ts';

const LONG = 300_000;

let rig: Rig;
let page: Page;
beforeAll(async () => {
  rig = await openRig();
  page = rig.page;
  await boardSays(page, 'runs this layout, kept');
}, LONG);
afterAll(() => rig.close());

async function view(key: '1' | '2' | '3'): Promise<void> {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press(key);
  const name = { 1: 'room', 2: 'layout', 3: 'desk' }[key];
  await page.locator(`.app.at-${name} .lamp`).first().waitFor();
}

/** Heights of letters on the screen, px, by the class that has them, the smallest first. */
function letters(): Promise<[string, number][]> {
  return page.evaluate(() => {
    const found = new Map<string, number>();
    for (const element of document.querySelectorAll('#panel *')) {
      const hasText = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
      const isSeen = element.getClientRects().length > 0;
      if (!hasText || !isSeen || element.tagName === 'OPTION' || element.tagName === 'title') continue;
      let size = Number.parseFloat(getComputedStyle(element).fontSize);
      if (element instanceof SVGGraphicsElement) {
        const matrix = element.getScreenCTM();
        if (matrix) size *= Math.hypot(matrix.a, matrix.b);
      }
      const name = `${element.tagName} ${element.getAttribute('class') ?? ''}`;
      found.set(name, Math.min(size, found.get(name) ?? size));
    }
    return [...found].sort((a, b) => a[1] - b[1]);
  });
}

/** Keys and fields that are smaller than so many px. */
function smaller(selector: string, than: number): Promise<string[]> {
  return page.evaluate(
    ([what, size]) =>
      [...document.querySelectorAll(what)]
        .filter((it) => it.getClientRects().length > 0)
        .filter((it) => {
          const { width, height } = it.getBoundingClientRect();
          return Math.min(width, height) < size - 0.01;
        })
        .map((it) => `${it.tagName} ${it.textContent}`),
    [selector, than] as const,
  );
}

const overflow = (): Promise<{ across: number; down: number }> =>
  page.evaluate(() => ({
    across: document.documentElement.scrollWidth - innerWidth,
    down: document.documentElement.scrollHeight - innerHeight,
  }));

test('nothing is under 14 px, and across the room nothing under 32 px', async () => {
  for (const key of ['2', '3'] as const) {
    await view(key);
    expect((await letters()).filter(([, size]) => size < 13.95)).toEqual([]);
  }
  await view('1');
  const all = await letters();
  expect(all.length).toBeGreaterThan(8);
  expect(all.filter(([, size]) => size < 31.95)).toEqual([]);
});

test('each of the three views fits 1280 x 720 without scrolling, the dials too', async () => {
  for (const key of ['1', '2', '3'] as const) {
    await view(key);
    expect(await overflow()).toEqual({ across: 0, down: 0 });
  }
  await view('2');
  const panel = await page.locator('.site-panel').evaluate((it) => it.scrollHeight - it.clientHeight);
  expect(panel).toBe(0);
});

test('targets are 44 px, those of dials 64 px', async () => {
  await view('2');
  expect(await smaller('button, select, .field', 43.9)).toEqual([]);
  expect(await smaller('.turn, .dial-value', 64)).toEqual([]);
  await view('3');
  expect(await smaller('button, select, #remark', 43.9)).toEqual([]);
});

test('at 200 % zoom the page scrolls down, never sideways, and the dials keep their size', async () => {
  await page.setViewportSize({ width: 640, height: 360 });
  for (const key of ['1', '2', '3'] as const) {
    await view(key);
    expect((await overflow()).across).toBe(0);
  }
  await view('2');
  expect(await smaller('.turn', 64)).toEqual([]);
  await page.setViewportSize({ width: 1280, height: 720 });
});

test('heads, beacons and dials have names for those who listen', async () => {
  await view('2');
  const heads = await page
    .locator('.head, .beacon')
    .evaluateAll((all) => all.map((it) => it.getAttribute('aria-label')));
  expect(heads).toHaveLength(9);
  expect(heads[0]).toMatch(/^Fore Street, from the east: (red|red with amber|green|amber)$/);
  expect(heads[8]).toMatch(/^Shop side: (amber|dark)$/);
  const green = page.getByRole('spinbutton', { name: 'Green, Fore Street' });
  expect(await green.getAttribute('aria-valuetext')).toBe('18 seconds');
  expect(await page.locator('.happened').getAttribute('aria-live')).toBe('polite');
});

test('the wheel turns the dial that has the keyboard, and no other', async () => {
  await view('2');
  const green = page.locator('#dial-green-1');
  await page.locator('#dial-green-2').hover();
  await page.mouse.wheel(0, -100);
  await green.focus();
  await green.hover();
  await page.mouse.wheel(0, -100);
  await page.locator('.happened', { hasText: '19.0 s' }).waitFor();
  expect([await green.inputValue(), await page.locator('#dial-green-2').inputValue()]).toEqual(['19.0 s', '12.0 s']);
});

test('+ goes on while it is held', async () => {
  const time = async (): Promise<number> => Number.parseFloat(await page.locator('#dial-green-2').inputValue());
  await page.locator('[data-dial="green-2"] .turn').last().hover();
  await page.mouse.down();
  await expect.poll(time, { timeout: 60_000 }).toBeGreaterThan(15);
  await page.mouse.up();
});

test('what cannot be read as a time is said at the dial and changes nothing', async () => {
  const green = page.locator('#dial-green-1');
  await green.fill('soon');
  await page.keyboard.press('Enter');
  await page.getByText('Write a time such as 18, 18.5 s or 1:05.').waitFor();
  await page.keyboard.press('Escape');
  expect(await green.inputValue()).toBe('19.0 s');
});

test('a file that is no layout is refused in words, and the town stays', async () => {
  await view('3');
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a layout' }).click();
  await (await chooser).setFiles({ name: 'list.json', mimeType: 'application/json', buffer: Buffer.from('[1, 2') });
  await page.locator('[data-problem="layoutUnreadable"]').waitFor();
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Penmarrow');
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('[data-problem]').count()).toBe(0);
});

test('a board without power says so on the plan and can be switched on there', async () => {
  await view('2');
  await page.keyboard.press('w');
  await page.locator('.board-note [data-problem="powerOff"]').waitFor();
  await page.locator('.board-note').getByRole('button', { name: 'Switch on' }).click();
  await boardSays(page, 'runs this layout, kept');
});

test('both looks are there, and motion is off for those who want none', async () => {
  await page.keyboard.press('t');
  await expect
    .poll(() => page.evaluate(() => getComputedStyle(document.body).backgroundColor))
    .toBe('rgb(242, 239, 232)');
  await page.keyboard.press('t');
  await expect.poll(() => page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe('rgb(18, 22, 26)');
  const quick = () =>
    page
      .locator('.bar rect')
      .first()
      .evaluate((it) => getComputedStyle(it).transitionDuration);
  expect(await quick()).toContain('0.16s');
  await page.emulateMedia({ reducedMotion: 'reduce' });
  expect(await quick()).toBe('0s');
});

test('the page had nothing to complain of, the content security policy included', () => {
  expect(rig.complaints).toEqual([]);
});
