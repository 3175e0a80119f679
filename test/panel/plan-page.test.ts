/** The plan as the place of work, in a real browser on the real host: by mouse, then by keyboard alone. */
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PICTURES } from '../fixtures/pictures.ts';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

const LONG = 300_000;

let rig: Rig;
let page: Page;
beforeAll(async () => {
  rig = await openRig();
  page = rig.page;
  await boardSays(page, 'runs this layout, kept');
}, LONG);
afterAll(() => rig.close());

async function middle(of: Locator): Promise<{ x: number; y: number }> {
  const box = await of.boundingBox();
  if (!box) throw new Error('not on the screen');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

const site = (id: string): Locator => page.locator(`#site-${id} circle`);

async function drag(from: { x: number; y: number }, to: { x: number; y: number }): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 3 });
  await page.mouse.move(to.x, to.y, { steps: 3 });
  await page.mouse.up();
}

const windowOnPlan = async (): Promise<number[]> =>
  ((await page.locator('svg.town').getAttribute('viewBox')) ?? '').split(' ').map((it) => Math.round(Number(it)));

/** Which point of the baseboard is under a place of the screen, mm. */
async function under(at: { x: number; y: number }): Promise<{ x: number; y: number }> {
  return page.locator('svg.town').evaluate((svg, { x, y }) => {
    const matrix = (svg as SVGSVGElement).getScreenCTM()?.inverse();
    const point = new DOMPoint(x, y).matrixTransform(matrix);
    return { x: point.x, y: point.y };
  }, at);
}

async function free(): Promise<void> {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
}

test('the wheel looks closer at what is under the pointer, a drag moves the ground, a key shows all of it', async () => {
  const whole = await windowOnPlan();
  const at = await middle(site('harbour-crossing'));
  const before = await under(at);
  await page.mouse.move(at.x, at.y);
  for (let turn = 0; turn < 5; turn++) await page.mouse.wheel(0, -100);
  await expect.poll(async () => (await windowOnPlan())[2]).toBeLessThan((whole[2] ?? 0) / 2);
  const after = await under(at);
  expect(Math.hypot(after.x - before.x, after.y - before.y)).toBeLessThan(1.5);
  // The zebra itself is not moved by it: nothing is arranged.
  await drag(at, { x: at.x + 120, y: at.y - 60 });
  const panned = await under({ x: at.x + 120, y: at.y - 60 });
  expect(Math.hypot(panned.x - before.x, panned.y - before.y)).toBeLessThan(3);
  // It is how the plan is looked at the next time, too; not a word of it in the file.
  const seen = await windowOnPlan();
  await page.waitForTimeout(600);
  await page.reload();
  await boardSays(page, 'runs this layout, kept');
  await expect.poll(windowOnPlan).toEqual(seen);
  await free();
  await page.keyboard.press('0');
  await expect.poll(windowOnPlan).toEqual(whole);
  await page.keyboard.press('=');
  await page.keyboard.press('=');
  await page.keyboard.press('-');
  await expect.poll(async () => Math.round(((whole[2] ?? 0) / ((await windowOnPlan())[2] ?? 1)) * 10) / 10).toBe(1.4);
  await page.keyboard.press('0');
});

test('two fingers look closer, one finger moves the ground', async () => {
  const whole = await windowOnPlan();
  const { x, y } = await middle(site('market-cross'));
  const hand = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...fingers: [number, number][]): Promise<unknown> =>
    hand.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: fingers.map(([dx, dy], id) => ({ x: x + dx, y: y + dy, id })),
    });
  await touch('touchStart', [-30, 0], [30, 0]);
  for (const apart of [40, 50, 60, 75, 90]) await touch('touchMove', [-apart, 0], [apart, 0]);
  await touch('touchEnd');
  await expect.poll(async () => (whole[2] ?? 0) / ((await windowOnPlan())[2] ?? 1)).toBeGreaterThan(2);
  const before = await windowOnPlan();
  await touch('touchStart', [0, 0]);
  for (const way of [10, 30, 60]) await touch('touchMove', [-way, 0]);
  await touch('touchEnd');
  await expect.poll(async () => (await windowOnPlan())[0]).toBeGreaterThan(before[0] ?? 0);
  await page.keyboard.press('0');
  await expect.poll(windowOnPlan).toEqual(whole);
});

test('a press on a head takes its site and the time of its traffic in hand', async () => {
  await page.getByRole('button', { name: /^Quay Hill, from the south: / }).click();
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('dial-green-2');
  await page.getByRole('button', { name: /^Harbour side: / }).click();
  await page.locator('.site.at-hand', { hasText: 'Harbour Crossing' }).waitFor();
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('dial-flash-on');
});

test('by mouse: a crossing is dragged onto another road and turns with it, is turned by its handle, and had again', async () => {
  await free();
  await page.keyboard.press('a');
  await page.getByRole('heading', { name: 'Arrange the plan' }).waitFor();
  const [zebra, cross] = [await middle(site('harbour-crossing')), await middle(site('market-cross'))];
  await drag(zebra, { x: cross.x + 6, y: cross.y + 130 });
  await happened(page, /^Moved and turned Harbour Crossing\.$/);
  // Onto the middle of Quay Hill, which runs from far to near; the lamps ran on.
  await page.locator('.site-panel.arrange legend', { hasText: 'Harbour Crossing' }).waitFor();
  const field = (name: string) => page.getByRole('textbox', { name: new RegExp(`^${name}`) });
  expect([await field('From the left').inputValue(), await field('Turn').inputValue()]).toEqual(['460', '0']);
  await boardSays(page, 'runs this layout, kept');

  const handle = page.locator('.handle.turns .knob');
  const at = await middle(handle);
  const middleOfZebra = await middle(site('harbour-crossing'));
  await drag(at, { x: middleOfZebra.x + 90, y: middleOfZebra.y + 3 });
  await happened(page, /^Turned Harbour Crossing\.$/);
  await expect.poll(() => field('Turn').inputValue()).toBe('90');
  await page.keyboard.press('Control+z');
  await happened(page, /^Undid: Turned Harbour Crossing\.$/);
  await page.keyboard.press('Control+z');
  await happened(page, /^Undid: Moved and turned Harbour Crossing\.$/);
  await expect.poll(() => field('From the left').inputValue()).toBe('1050');
});

test('by mouse: a road is drawn from site to site, named, bent, and carries the crossing that stands on it', async () => {
  const [cross, zebra] = [await middle(site('market-cross')), await middle(site('harbour-crossing'))];
  await page.getByRole('button', { name: 'Draw a road' }).click();
  await page.mouse.click(cross.x + 2, cross.y + 3);
  await page.mouse.move(zebra.x, zebra.y);
  await page.locator('.snap-note', { hasText: 'Snaps to: Harbour Crossing' }).waitFor();
  await page.mouse.click(zebra.x - 2, zebra.y);
  await page.mouse.click(zebra.x - 2, zebra.y);
  await happened(page, /^Drew Road 5\.$/);
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('road-name');
  await page.keyboard.type('Mill Lane');
  await page.keyboard.press('Enter');
  await happened(page, /^Named Road 5 Mill Lane\.$/);

  // Harbour Road is at hand by a press on it; its end is dragged down, and the zebra turns with it.
  await page.getByRole('button', { name: 'Harbour Road', exact: true }).click();
  const end = page.getByRole('button', { name: /^Harbour Road, point 2 of 3/ });
  const at = await middle(end.locator('.knob'));
  await drag(at, { x: at.x, y: at.y + 60 });
  await happened(page, /^Moved a point of Harbour Road\.$/);
  const turn = page.getByRole('textbox', { name: /^Turn/ });
  await expect.poll(async () => Number(await turn.inputValue())).toBeGreaterThan(92);
  await page.keyboard.press('Control+z');
  await happened(page, /^Undid: Moved a point of Harbour Road\.$/);
  await expect.poll(() => turn.inputValue()).toBe('90');
  await page.getByRole('button', { name: 'Done' }).click();
  await page.getByRole('heading', { name: 'Arrange the plan' }).waitFor({ state: 'detached' });
});

test('keyboard alone: heads by arrow keys, a site moved and turned, a road drawn with the cross', async () => {
  await free();
  await page.keyboard.press('[');
  await page.keyboard.press(']');
  await page.locator('#site-market-cross').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label')))
    .toMatch(/^Fore Street, from the west: /);
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('dial-green-1');
  await page.keyboard.press('a');
  await page.locator('#site-harbour-crossing').focus();
  for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowRight']) await page.keyboard.press(key);
  await happened(page, /^Moved Harbour Crossing\.$/);
  const left = page.getByRole('textbox', { name: /^From the left/ });
  await expect.poll(() => left.inputValue()).toBe('1071');
  await page.locator('#site-harbour-crossing').focus();
  for (const key of ['.', 'Shift+<']) await page.keyboard.press(key);
  await happened(page, /^Turned Harbour Crossing\.$/);
  await expect.poll(() => page.getByRole('textbox', { name: /^Turn/ }).inputValue()).toBe('104');

  await page.keyboard.press('Shift+A');
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('road-cursor');
  await page.keyboard.press('Enter');
  for (let step = 0; step < 14; step++) await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await happened(page, /^Drew Road 6\.$/);
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('road-name');
  await page.keyboard.press('Escape');
});

test('a picture is laid under the plan, scaled by two points, hidden, and asked for where it is missing', async () => {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Choose a picture' }).click();
  const file = { name: 'track plan.png', mimeType: 'image/png', buffer: Buffer.from(PICTURES.png, 'base64') };
  await (await chooser).setFiles(file);
  await happened(page, /^Laid track plan\.png under the plan\.$/);
  const image = page.locator('image.underlay');
  await image.waitFor();
  expect(Number(await image.getAttribute('width')) / Number(await image.getAttribute('height'))).toBeCloseTo(
    37 / 23,
    2,
  );
  const folder = join(rig.folder, 'data', 'pictures');
  expect(readdirSync(folder)).toHaveLength(1);

  const before = Number(await image.getAttribute('width'));
  await page.getByRole('button', { name: 'Scale by two points' }).click();
  const [a, b] = [await middle(site('market-cross')), await middle(site('chapel-corner'))];
  await page.mouse.click(a.x, a.y);
  await page.mouse.click(b.x, b.y);
  await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('measured-length');
  // Market Cross and Chapel Corner are 720 mm apart on the plan; of the picture it is known to be half of that.
  await page.keyboard.type('360');
  await page.keyboard.press('Enter');
  await happened(page, /^Scaled track plan\.png: the two points are 360 mm apart\.$/);
  await expect.poll(async () => Number(await image.getAttribute('width')) / before).toBeCloseTo(0.5, 1);

  await page.getByRole('button', { name: 'Hide the picture' }).click();
  await image.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Show the picture' }).click();
  await image.waitFor();

  // Another computer: the file of the layout is here, the picture is not.
  for (const name of readdirSync(folder)) rmSync(join(folder, name));
  await page.reload();
  const note = page.getByRole('complementary', { name: 'Picture under the plan' });
  await note.getByText('track plan.png').waitFor();
  const again = page.waitForEvent('filechooser');
  await note.getByRole('button', { name: 'Choose it again' }).click();
  await (await again).setFiles(file);
  await image.waitFor();
  await note.waitFor({ state: 'detached' });

  // What is no picture changes nothing.
  await page.keyboard.press('u');
  const wrong = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Another picture' }).click();
  await (await wrong).setFiles({ name: 'plan.svg', mimeType: 'image/svg+xml', buffer: Buffer.from('<svg/>') });
  await page.locator('[data-problem="badPicture"]').waitFor();
  expect(existsSync(folder) && readdirSync(folder)).toHaveLength(1);
  await page.keyboard.press('Escape');
});

test('across the room: two dials with keys of 64 px and more, which they are can be chosen', async () => {
  await free();
  await page.keyboard.press('1');
  const dials = page.locator('.room-dial');
  await expect.poll(() => dials.count()).toBe(2);
  for (const key of await page.locator('.room-dial .turn').all()) {
    const box = await key.boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(64);
  }
  await page.locator('#site-chapel-corner').focus();
  await page.keyboard.press('Enter');
  await page.locator('.room-site h2', { hasText: 'Chapel Corner' }).waitFor();
  await page.getByLabel('Second dial').selectOption({ label: 'Amber' });
  await page.getByRole('button', { name: 'Longer: Amber' }).click();
  await happened(page, /Chapel Corner.*[Aa]mber.* 3\.5 s/);
  await page.getByRole('spinbutton', { name: 'Amber' }).focus();
  await page.keyboard.press('ArrowDown');
  await happened(page, /Chapel Corner.*[Aa]mber.* 3\.0 s/);
});

test('the page had nothing to complain of, the content security policy included', () => {
  expect(rig.complaints).toEqual([]);
});
