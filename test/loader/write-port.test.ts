import { afterAll, beforeAll, expect, test } from 'vitest';
import { systemClock } from '../../electron/host/clock.ts';
import { openLoaderPort } from '../../electron/host/loader/port.ts';
import { askLoader } from '../../electron/host/loader/write.ts';
import { BareBoard } from './bare-board.ts';
import { type PtyBoard, plugPty } from './pty-front.ts';

let device: PtyBoard;
beforeAll(async () => {
  device = await plugPty(new BareBoard({ loader: 'v1-57600', clock: systemClock }));
});
afterAll(() => device.close());

test('the real binding at the rates of two loaders: the older one answers at its own', async () => {
  const open = (baud: number) => openLoaderPort(device.path, baud, { pulse: device.pulse });
  const met = await askLoader({ open, clock: systemClock, chip: null });
  expect(met).toMatchObject({ ok: true, value: { loader: 'v1-57600', signature: '1E950F' } });
});

test('a device without modem lines says that it cannot be reset, and still opens and closes', async () => {
  const opened = await openLoaderPort(device.path, 115_200);
  if (!opened.ok) throw new Error(opened.error.detail);
  expect(await opened.line.pulseReset()).toBe(false);
  await opened.line.close();
  await opened.line.close();
  expect(await opened.line.pulseReset()).toBe(false);
  let cause = '';
  opened.line.onClose((told) => {
    cause = told;
  });
  expect(cause).toBe('The port was closed.');
});

test('a port that is held, or not there, is told in the words of every opening', async () => {
  const first = await openLoaderPort(device.path, 57_600);
  if (!first.ok) throw new Error(first.error.detail);
  const second = await openLoaderPort(device.path, 57_600);
  expect(!second.ok && second.error.kind).toBe('busy');
  await first.line.close();
  const missing = await openLoaderPort(`${device.path}-gone`, 57_600);
  expect(!missing.ok && missing.error.kind).toBe('missing');
});
