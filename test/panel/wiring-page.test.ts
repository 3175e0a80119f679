/** The wiring planned in a real browser: by mouse, by keyboard, undone, and with everything that stands beside the board. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

const LONG = 300_000;

let rig: Rig;
let page: Page;
beforeAll(async () => {
  rig = await openRig();
  page = rig.page;
  await boardSays(page, 'runs this layout, kept');
  await page.keyboard.press('Shift+W');
  await page.locator('.pin-board').waitFor();
}, LONG);
afterAll(() => rig.close());

const slot = (output: number) => page.locator(`[data-output="${output}"]`);
const words = (output: number) => slot(output).getAttribute('aria-label');
const said = (text: RegExp) => page.locator('.wiring-said', { hasText: text }).waitFor();
const part = (name: string) => page.locator('.parts').getByRole('button', { name, exact: true }).click();

async function carry(from: number, to: number): Promise<void> {
  const [a, b] = [await slot(from).boundingBox(), await slot(to).boundingBox()];
  if (!a || !b) throw new Error('no slot');
  await page.mouse.move(a.x + a.width / 2, a.y + a.height / 2);
  await page.mouse.down();
  await page.mouse.move(a.x + a.width / 2 + 20, a.y + a.height / 2 + 20, { steps: 3 });
  await page.mouse.move(b.x + b.width / 2, b.y + b.height / 2, { steps: 4 });
  await page.mouse.up();
}

test(
  'a lamp is dragged to a free output, changed with another by keyboard, and both are undone',
  async () => {
    expect([await words(2), await words(17)]).toEqual(['D2: Market Cross, Fore Street red', 'A3: free']);
    await carry(2, 17);
    await happened(page, /^Moved Market Cross, Fore Street red from D2 to A3\.$/);
    await expect.poll(() => words(17)).toBe('A3: Market Cross, Fore Street red');
    expect(await words(2)).toBe('D2: free');

    await slot(3).focus();
    await page.keyboard.press('Enter');
    await said(/^Picked up Market Cross, Fore Street amber\./);
    await page.keyboard.press('ArrowRight');
    await said(/^D4: Market Cross, Fore Street green; the two would change places\.$/);
    await page.keyboard.press('Enter');
    await happened(
      page,
      /^Exchanged the outputs of Market Cross, Fore Street amber and Market Cross, Fore Street green\.$/,
    );
    expect(await words(4)).toBe('D4: Market Cross, Fore Street amber');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-output'))).toBe('4');

    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Escape');
    await said(/^Left Market Cross, Fore Street amber where it was\.$/);
    expect(await page.locator('.sheet').count()).toBe(1);

    await page.keyboard.press('Control+z');
    await happened(page, /^Undid: Exchanged/);
    await page.keyboard.press('Control+z');
    await happened(page, /^Undid: Moved/);
    await expect.poll(() => words(2)).toBe('D2: Market Cross, Fore Street red');
  },
  LONG,
);

test('a pin of the serial line takes no lamp, and says why', async () => {
  await carry(5, 1);
  await page
    .locator('.wiring [role="alert"]', { hasText: 'D1 of Town board is the serial line to the computer.' })
    .waitFor();
  expect(await words(5)).toBe('D5: Market Cross, Quay Hill red');
});

test('a lamp moved with a button goes where it is put with a click', async () => {
  await page.getByRole('button', { name: 'Quay Hill, green', exact: true }).click();
  await page.getByRole('button', { name: 'Move it from D7' }).click();
  await slot(18).click();
  await happened(page, /^Moved Market Cross, Quay Hill green from D7 to A4\.$/);
  await part('Outputs');
  await page.getByRole('button', { name: 'Lay out 1 lamp anew' }).click();
  await happened(page, /^Laid out Town board anew: 1 of 14 lamps moved\.$/);
  await expect.poll(() => words(7)).toBe('D7: Market Cross, Quay Hill green');
});

test('wanted current and wire change the list at once', async () => {
  await slot(2).click();
  const row = page.locator('[data-lamp-path="sites[0].phases[0].lamps.red"]');
  await page.getByLabel('Wanted current').fill('2');
  await page.keyboard.press('Enter');
  await row.getByText('1.8 kΩ: brown, grey, red, gold').waitFor();
  await page.getByRole('combobox', { name: 'Wire', exact: true }).selectOption('violet');
  await row.getByText('violet').waitFor();
  await page.getByLabel('Fed with').fill('230');
  await page.keyboard.press('Enter');
  await page.getByText('Write volts such as 2.1, at most 24.').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Same for 1 other red lamp on this site' }).click();
  await happened(page, /^Made 1 lamps? like Market Cross, Fore Street red\.$/);
});

test('currents stand against their limits, each with its source', async () => {
  await part('Currents');
  const side = page.locator('.currents');
  await side.getByText('D5 to D13, sourcing').waitFor();
  const lines = await side.locator('.current-figure').allTextContents();
  expect(lines.length).toBeGreaterThan(16);
  expect(lines.every((line) => /^(at most )?\d+\.\d mA of \d+ mA$/.test(line))).toBe(true);
  expect(await side.locator('.current-source').count()).toBeGreaterThanOrEqual(4);
});

test('the board tells its supply, and is calibrated with what a meter shows', async () => {
  await part('Supply');
  const now = page.locator('.supply-now');
  await page.getByText('Not calibrated: the true value may be 10 % off').waitFor();
  expect(await now.textContent()).toMatch(/^(4\.[5-9]|5\.[0-5])\d V$/);
  await page.getByText('Calibrate with a meter').click();
  await page.getByLabel('The meter shows').fill('12');
  await page.keyboard.press('Enter');
  await page.getByText('Write what the meter shows, between 3.00 and 5.50 V.').waitFor();
  await page.getByLabel('The meter shows').fill('4.90');
  await page.getByRole('button', { name: 'Calibrate', exact: true }).click();
  await happened(page, /^Calibrated the supply of Town board by a meter that showed 4900 mV/);
  await page.getByText('Calibrated with a meter.', { exact: false }).waitFor();
  await now.getByText('4.90 V').waitFor();
});

test('a chain and the larger board come with one press, and every wire keeps its pin', async () => {
  await part('Outputs');
  await page.getByLabel('Chapel Corner, 6 lamps').check();
  await page.getByText('Data, clock, latch and output enable: D8, D9, D10, D11.').waitFor();
  await page.getByRole('button', { name: 'Add the chain' }).click();
  await happened(page, /^Gave Town board a chain of 1 chip, with 6 lamps on it\.$/);
  await expect.poll(() => words(128)).toBe('bit 0: Chapel Corner, Fore Street red');
  await page.getByRole('button', { name: 'Take the larger board' }).click();
  await happened(page, /^Took a board with an ATmega2560 for Town board\.$/);
  expect([await words(128), await words(2), await words(55)]).toEqual([
    'bit 0: Chapel Corner, Fore Street red',
    'D2: Market Cross, Fore Street red',
    'A1: Harbour Crossing, Harbour side',
  ]);
});

test('letters, targets and small windows are as everywhere', async () => {
  for (const name of ['Lamp', 'Currents', 'Outputs', 'Supply']) {
    await part(name);
    const small = await page.evaluate(() => {
      const all = [...document.querySelectorAll('.wiring *')].filter((it) => it.getClientRects().length > 0);
      const letters = all.filter((it) => {
        const hasText = [...it.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim());
        const isHtml = it instanceof HTMLElement && it.tagName !== 'OPTION';
        return hasText && isHtml && Number.parseFloat(getComputedStyle(it).fontSize) < 13.95;
      });
      const keys = all.filter((it) => {
        const { width, height } = it.getBoundingClientRect();
        return it.matches('button, select, .field, summary') && Math.min(width, height) < 43.9;
      });
      return [...letters, ...keys].map((it) => `${it.tagName} ${it.className} ${it.textContent}`);
    });
    expect(small).toEqual([]);
    await page.setViewportSize({ width: 640, height: 360 });
    const across = await page.evaluate(() => {
      const sheet = document.querySelector('.sheet');
      return [document.documentElement.scrollWidth - innerWidth, (sheet?.scrollWidth ?? 0) - (sheet?.clientWidth ?? 0)];
    });
    expect(across).toEqual([0, 0]);
    await page.setViewportSize({ width: 1280, height: 720 });
  }
});

test('the page had nothing to complain of', () => {
  expect(rig.complaints).toEqual([]);
});
