/** For those who listen, use the keyboard alone, or have colours of their own. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench, type PageWindow, settled, USUAL, ZOOMED } from './bench.ts';
import { contrast, type Light, luminance, parseColour } from './colour.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = bench.page;
}, 300_000);
afterAll(() => bench.close());

const show = (distance: 'room' | 'layout' | 'desk', theme: 'dark' | 'light' = 'dark') =>
  bench.show({ name: distance, distance, open: async () => {} }, { theme });

test('every head says which of its lamps are lit, every dial what it is and its time', async () => {
  await show('layout');
  const tree = await page.locator('#panel').ariaSnapshot();
  for (const name of ['Fore Street, from the east', 'Fore Street, from the west', 'Shop side', 'Harbour side'])
    expect(tree).toMatch(new RegExp(`"${name}: (red|amber|green|red with amber|dark)`));
  const heads = await page.evaluate(() =>
    [...document.querySelectorAll('.plan .lamp')].map((it) => it.closest('.symbol')?.getAttribute('aria-label') ?? ''),
  );
  expect(heads.length).toBeGreaterThan(20);
  expect(heads.filter((name) => !/^.+: (red|amber|green|red with amber|dark)$/.test(name))).toEqual([]);
  const dials = await page
    .getByRole('spinbutton')
    .evaluateAll((all) => all.map((it) => [it.getAttribute('aria-label'), it.getAttribute('aria-valuetext')]));
  expect(dials[0]).toEqual(['Green, Fore Street', '18 seconds']);
  for (const [name, value] of dials) {
    expect(name).toMatch(/^[A-Z]/);
    expect(value).toMatch(/second/);
  }
});

test.each(['room', 'layout', 'desk'] as const)('%s: nothing is announced while the lamps run', async (distance) => {
  await show(distance);
  const told = await page.evaluate(async () => {
    const { host } = window as unknown as PageWindow;
    const said: string[] = [];
    const isLive = (node: Node): boolean => {
      const live = (node instanceof Element ? node : node.parentElement)?.closest(
        '[aria-live], [role="status"], [role="alert"], [role="log"]',
      );
      return live !== null && live !== undefined && live.getAttribute('aria-live') !== 'off';
    };
    const watch = new MutationObserver((changes) => {
      for (const { target } of changes) if (isLive(target)) said.push(target.textContent ?? '');
    });
    watch.observe(document.body, { childList: true, characterData: true, subtree: true });
    const rows = JSON.stringify(host.boards[0]?.live().rows);
    // Two cycles and more of every site.
    for (let second = 0; second < 100; second++) {
      host.advance(1000);
      await new Promise((done) => setTimeout(done, 10));
    }
    watch.disconnect();
    return { said, hasRun: JSON.stringify(host.boards[0]?.live().rows) !== rows };
  });
  expect(told).toEqual({ said: [], hasRun: true });
});

test('what was changed is announced once, politely; what runs, when it is asked for', async () => {
  await show('layout');
  const foot = page.locator('.happened');
  expect(await foot.getAttribute('aria-live')).toBe('polite');
  await page.locator('#dial-green-1').press('ArrowUp');
  await page.locator('.happened', { hasText: 'Green, Fore Street' }).waitFor();
  await page.locator('.happened', { hasText: '19.0 s' }).waitFor();
  await page.keyboard.press(';');
  await page.locator('.happened', { hasText: /^Market Cross: .+, (at least )?\d+ seconds left\.$/ }).waitFor();
  // A key that does nothing says why.
  await page.keyboard.press('Shift+X');
  await page.locator('.happened', { hasText: 'Cancel sending: Nothing is being sent.' }).waitFor();
});

/** Walks on with Tab until it is back at the top; for each stop its name and how its outline stands out. */
async function walk(most: number): Promise<{ name: string; outline: number; contrast: number }[]> {
  const stops: { name: string; outline: number; contrast: number }[] = [];
  for (let turn = 0; turn < most; turn++) {
    await page.keyboard.press('Tab');
    const stop = await page.evaluate(() => {
      const it = document.activeElement;
      if (!it || it === document.body) return null;
      const style = getComputedStyle(it.closest('svg') === null ? it : (it.querySelector('.label-ground') ?? it));
      const grounds: string[] = [];
      for (let at: Element | null = it.parentElement; at; at = at.parentElement)
        grounds.push(getComputedStyle(at).backgroundColor);
      return {
        name: `${it.tagName} ${it.id} ${it.getAttribute('aria-label') ?? it.textContent?.slice(0, 30)}`,
        style: style.outlineStyle,
        width: Number.parseFloat(style.outlineWidth),
        stroke: style.stroke,
        colour: style.outlineColor,
        grounds,
        isDrawn: it.closest('svg') !== null,
      };
    });
    if (stop === null || stops.some(({ name }) => name === stop.name)) return stops;
    const ground: Light = stop.grounds.map(parseColour).find(({ alpha }) => alpha === 1)?.light ?? [0, 0, 0];
    const drawn = stop.isDrawn && stop.style === 'none' ? stop.stroke : stop.colour;
    stops.push({
      name: stop.name,
      outline: stop.style === 'none' && !stop.isDrawn ? 0 : stop.width,
      contrast: contrast(parseColour(drawn).light, ground),
    });
  }
  throw new Error(
    `The keyboard does not come out: ${stops
      .slice(-3)
      .map(({ name }) => name)
      .join(', ')}`,
  );
}

test.each([
  ['layout', 'dark'],
  ['layout', 'light'],
  ['desk', 'dark'],
  ['room', 'light'],
] as const)('%s, %s: the keyboard goes round, always seen, from the top bar on', async (distance, theme) => {
  await show(distance, theme);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  const stops = await walk(150);
  expect(stops.length).toBeGreaterThan(5);
  expect(stops[0]?.name).toContain('Menu');
  // 2 px and 3:1: WCAG 2.2, 2.4.13.
  expect(stops.filter(({ outline, contrast: ratio }) => outline < 2 || ratio < 3)).toEqual([]);
  expect(await page.locator('[tabindex]:not([tabindex="0"]):not([tabindex="-1"])').count()).toBe(0);
});

test('the finder keeps the keyboard until it is closed, then gives it back', async () => {
  await show('layout');
  await page.locator('#dial-green-2').focus();
  await page.keyboard.press('Control+k');
  const field = page.getByRole('combobox', { name: 'Find a command, a site or a time' });
  expect(await field.evaluate((it) => it === document.activeElement)).toBe(true);
  await page.keyboard.type('chapel lane');
  const chosen = await field.getAttribute('aria-activedescendant');
  expect(await page.locator(`#${chosen}`).getAttribute('aria-selected')).toBe('true');
  await page.keyboard.press('Escape');
  await page.locator('.finder').waitFor({ state: 'detached' });
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('dial-green-2');
  await page.keyboard.press('Control+k');
  await page.keyboard.type('chapel lane');
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('dial-green-2');
  await page.getByRole('button', { name: 'Chapel Corner', exact: true, pressed: true }).waitFor();
});

test('the menus by the keyboard alone: down, into, by letter, out, back', async () => {
  await show('layout');
  await page.getByRole('button', { name: 'Menu', exact: true }).focus();
  await page.keyboard.press('ArrowDown');
  const at = () => page.evaluate(() => document.activeElement?.textContent ?? '');
  await expect.poll(at).toBe('File');
  await page.keyboard.press('v');
  await page.keyboard.press('ArrowRight');
  await expect.poll(at).toContain('Across the room');
  await page.keyboard.press('d');
  await expect.poll(at).toContain('Dark or light');
  await page.keyboard.press('ArrowLeft');
  await expect.poll(at).toBe('View');
  await page.keyboard.press('Escape');
  await expect.poll(at).toBe('Menu');
  expect(await page.locator('.menu').count()).toBe(0);
  await page.keyboard.press('Enter');
  await expect.poll(at).toBe('File');
  await page.keyboard.press('s');
  await page.keyboard.press('Enter');
  await expect.poll(at).toContain('Next site');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Chapel Corner', exact: true, pressed: true }).waitFor();
});

test('the help lies over a sheet and leaves it as it was', async () => {
  await show('layout');
  await page.keyboard.press('n');
  const typed = page.locator('.sheet input[type="text"], .sheet input:not([type])').first();
  await typed.waitFor();
  await typed.fill('Smithy Lane');
  await page.getByRole('button', { name: 'Help about New site' }).click();
  await page.getByRole('heading', { name: 'The plan', exact: true }).waitFor();
  await page.getByRole('searchbox').fill('fumes');
  await page.getByText('1 place found.').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('.sheet[aria-label="Help"]').waitFor({ state: 'detached' });
  expect(await typed.inputValue()).toBe('Smithy Lane');
});

test('with colours of the system what is pressed, chosen and lit is still told apart', async () => {
  await show('layout');
  await page.emulateMedia({ forcedColors: 'active' });
  await settled(page);
  const colour = (selector: string, property: string): Promise<string> =>
    page
      .locator(selector)
      .first()
      .evaluate((it, name) => getComputedStyle(it).getPropertyValue(name), property);
  const ground = async (selector: string): Promise<Light> =>
    parseColour(await colour(selector, 'background-color')).light;
  const [pressed, other] = [
    await ground('.distances .tab[aria-pressed="true"]'),
    await ground('.distances .tab[aria-pressed="false"]'),
  ];
  expect(contrast(pressed, other)).toBeGreaterThan(3);
  expect(await colour('.distances .tab', 'border-top-style')).toBe('solid');
  const fill = async (look: string) =>
    parseColour(await colour(`.plan .lamp[data-look="${look}"] .bulb`, 'fill')).light;
  expect(contrast(await fill('lit'), await fill('dark'))).toBeGreaterThan(3);
  expect(luminance(await fill('lit'))).toBeGreaterThan(luminance(await fill('dark')));
  await page.keyboard.press('Control+k');
  expect(contrast(await ground('.finder-entry[aria-selected="true"]'), await ground('.finder'))).toBeGreaterThan(3);
  await page.keyboard.press('Escape');
  await page.emulateMedia({ forcedColors: 'none' });
});

test('with motion wanted something moves; with none wanted nothing does', async () => {
  await show('layout');
  const longest = () =>
    page.evaluate(() =>
      Math.max(
        ...[...document.querySelectorAll('#panel *')].flatMap((it) => {
          const { transitionDuration, animationDuration } = getComputedStyle(it);
          return `${transitionDuration},${animationDuration}`.split(',').map((time) => Number.parseFloat(time));
        }),
      ),
    );
  expect(await longest()).toBeGreaterThan(0.1);
  expect(await longest()).toBeLessThanOrEqual(0.2);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  expect(await longest()).toBe(0);
  await page.emulateMedia({ reducedMotion: 'no-preference' });
});

test('at 200 % zoom the dials and their keys are as large as a thumb', async () => {
  await show('layout');
  for (const size of [USUAL, ZOOMED]) {
    await page.setViewportSize(size);
    const small = await page
      .locator('.turn, .dial-value')
      .evaluateAll((all) =>
        all.map((it) => it.getBoundingClientRect()).filter(({ width, height }) => Math.min(width, height) < 63.95),
      );
    expect(small).toEqual([]);
  }
});
