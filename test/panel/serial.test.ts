/** The main job through the panel over a serial device: the real binding on a pseudo-terminal. */
import { afterEach, expect, test } from 'vitest';
import { openPort } from '../../electron/host/ports.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { openPty, type PtyFront } from '../../electron/host/virtual/pty.ts';
import { boardSays, happened, openRig, type Rig, watchIntervals } from './rig.ts';

let rig: Rig;
let live: LiveBoard;
let pty: PtyFront;

afterEach(async () => {
  await rig.close();
  await pty.close();
  await live.close();
});

/** A board on the bench with the shipped firmware and nothing kept, behind a device of this computer. */
async function plugIn(): Promise<void> {
  const image = loadImage('atmega328p');
  if (!image.ok) throw new Error(image.error);
  live = new LiveBoard({ chip: 'atmega328p', flash: image.flash, speed: 4 });
  await live.ready;
  live.power(true);
  const front = await openPty(live);
  if (!front.ok) throw new Error(front.error);
  pty = front.pty;
}

test('a board at a serial device: connect, send, watch a cycle, nudge, keep, power cut, start again', async () => {
  await plugIn();
  const found = { path: pty.path, label: 'bench device', likely: true, virtual: false };
  rig = await openRig({ serial: { list: async () => [found], open: openPort } });
  const { page } = rig;
  await boardSays(page, 'runs this layout, kept');

  // Another board takes the place of the virtual one; connecting writes nothing to it.
  await page.getByRole('button', { name: /^Town board/ }).click();
  await page.getByRole('button', { name: 'Connect bench device' }).click();
  await boardSays(page, 'runs nothing');
  await page.getByRole('article', { name: 'Town board' }).getByRole('button', { name: 'Send' }).click();
  await boardSays(page, 'runs this layout, not kept');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  const seen = await watchIntervals(page, 'market-cross');
  await expect.poll(async () => new Set(await seen()).size, { timeout: 90_000 }).toBeGreaterThan(6);

  const green = page.locator('[data-dial="green-1"]');
  await green.getByRole('button', { name: /^Longer/ }).click();
  await happened(page, /19\.0 s/);
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await happened(page, /^Kept on Town board/);

  // The power of the board fails while its port stays: silence, then the board is met again.
  live.power(false);
  await boardSays(page, 'lost, looking for it');
  live.power(true);
  await boardSays(page, 'runs this layout, other times, kept');
  expect(await page.locator('#dial-green-1').inputValue()).toBe('19.0 s');
  expect(rig.complaints).toEqual([]);
}, 400_000);
