/** A board fresh from its bag, by keyboard only: over a device node and the real binding to glowing lamps. */
import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { systemClock } from '../../electron/host/clock.ts';
import { openLoaderPort } from '../../electron/host/loader/port.ts';
import { openPort } from '../../electron/host/ports.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { BareBoard } from '../loader/bare-board.ts';
import { type PtyBoard, plugPty } from '../loader/pty-front.ts';
import { boardSays, happened, openRig, type Rig } from './rig.ts';

let rig: Rig;
let plugged: PtyBoard;

afterEach(async () => {
  await rig.close();
  await plugged.close();
});

/** An ATmega328PB: it takes the same image, and carries half the current. */
async function plugIn(): Promise<BareBoard> {
  const board = new BareBoard({ loader: 'v1-115200', clock: systemClock, signature: '1E9516' });
  plugged = await plugPty(board);
  const { path, pulse } = plugged;
  const found = { path, label: 'USB serial (CH340)', likely: true, virtual: false };
  rig = await openRig({
    welcomed: false,
    serial: {
      list: async () => [found],
      open: openPort,
      openLoader: (at, baud) => openLoaderPort(at, baud, { pulse }),
      present: async () => [path],
    },
  });
  return board;
}

/** The tabulator, until the keyboard is on a button of this name. */
async function tabTo(page: Page, name: string): Promise<void> {
  const at = (): Promise<string | null> =>
    page.evaluate(() => {
      const here = document.activeElement;
      return here?.getAttribute('aria-label') ?? here?.textContent ?? null;
    });
  for (let turn = 0; turn < 80 && (await at()) !== name; turn++) await page.keyboard.press('Tab');
  expect(await at()).toBe(name);
}

test('first start, choose the port, put the firmware on, cancel it, put it on, send: the lamps glow', async () => {
  const board = await plugIn();
  const { page } = rig;
  const keys = page.keyboard;
  await page.getByRole('button', { name: 'Begin' }).waitFor();
  await keys.press('Enter');
  await boardSays(page, 'runs this layout, kept');

  await keys.press('c');
  await tabTo(page, 'Connect USB serial (CH340)');
  await keys.press('Enter');
  await page.locator('.sheet [data-problem="noAnswer"]').waitFor();

  // The question stands there until it is answered; Escape is no.
  await keys.press('f');
  await page.getByText(/^Town board at .* gets firmware/).waitFor();
  await keys.press('Escape');
  await page.locator('.sheet [data-problem="noAnswer"]').waitFor();
  expect(board.flash.written).toEqual([]);

  await keys.press('f');
  await tabTo(page, 'Write it');
  await keys.press('Enter');
  await page.locator('.stage', { hasText: 'Writing the firmware' }).waitFor();
  await keys.press('Shift+F');
  await page.locator('.sheet [data-problem="firmwareEmptied"]').waitFor();
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Try again');

  await keys.press('Enter');
  await page.getByText(/^Wrote firmware \d+\.\d+\.\d+ to Town board; it answered\.$/).waitFor();
  await page.locator('.sheet').getByText('100 mA in all').waitFor();
  // The line at the foot is a long one; the bar at the top stays within the window.
  const bar = await page.locator('.top-bar').boundingBox();
  expect((bar?.x ?? 0) + (bar?.width ?? 0)).toBeLessThanOrEqual(1280);
  const image = loadImage('atmega328p');
  if (!image.ok) throw new Error(image.error);
  const room = board.flash.program.length;
  expect(Buffer.from(board.flash.program).equals(Buffer.from(image.flash.subarray(0, room)))).toBe(true);

  await page.waitForFunction(() => document.activeElement?.textContent === 'Send');
  await keys.press('Enter');
  await boardSays(page, 'runs this layout, not kept');
  await page.locator('.lamp[data-look="lit"]').first().waitFor();
  expect(board.drivenPins.length).toBeGreaterThan(0);

  await keys.press('Escape');
  await keys.press('Escape');
  await expect.poll(() => page.locator('.sheet').count(), { timeout: 30_000 }).toBe(0);
  await keys.press('k');
  await happened(page, /^Kept on Town board/);
  await boardSays(page, 'runs this layout, kept');

  // What was said is there to be looked at.
  await keys.press('d');
  await expect.poll(() => page.locator('.frame').count(), { timeout: 30_000 }).toBeGreaterThan(10);
  expect(rig.complaints).toEqual([]);
}, 400_000);
