import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { openPty } from '../../electron/host/virtual/pty.ts';
import { example, typed } from './typed.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-report-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

test('of this computer alone it is printed', async () => {
  const { exit, out } = await typed('report');
  expect(exit).toBe(0);
  expect(out.split('\n').slice(0, 2)).toEqual([
    'Amberwick report, for asking for help: how the app, the boards and the talk with them are.',
    'It has no names, file names, remarks, addresses or serial numbers in it. Read it before you send it.',
  ]);
  expect(out).toContain(`  amberwick   ${version}, on the command line\n`);
  expect(out).toContain('  virtual board\n');
  expect(out).not.toContain('Board 1');
});

test('of a board at a device: what it runs and what was said, without its name; then of nothing there', async () => {
  const image = loadImage('atmega328p');
  if (!image.ok) throw new Error(image.error);
  const board = new LiveBoard({ chip: 'atmega328p', flash: image.flash });
  const front = await openPty(board);
  if (!front.ok) throw new Error(front.error);
  board.power(true);
  const { path } = front.pty;
  expect((await typed('send', example('penmarrow'), '--port', path, '--keep')).exit).toBe(0);
  const file = join(folder, 'report.txt');
  const { exit, out } = await typed('report', '--port', path, '-o', file);
  expect([exit, out]).toEqual([0, `Wrote ${file}. Read it before you send it.\n`]);
  const text = readFileSync(file, 'utf8');
  for (const line of [
    /^ {2}port +\/dev\/pts\/\d+$/m,
    /^ {2}link +ready$/m,
    /^ {2}problem +none$/m,
    /^ {2}opening resets it {2}no$/m,
    /^ {2}chip +atmega328p$/m,
    new RegExp(`^ {2}firmware +${image.shipped.firmware.replaceAll('.', '\\.')} \\(same\\), protocol 1, store 1$`, 'm'),
    /^ {2}runs, keeps +unknown, unknown$/m,
    /^ {2}faults by site +0 0 0$/m,
    /^ {2}kept so far +1 time$/m,
    /^ {2}supply +\d{4} mV$/m,
    /^ {2}flags +.*table/m,
    / > \?[0-9A-F]{2} who [0-9A-F]{4} {2}\| Asks who is there\.$/m,
    / {2}\| An Amberwick board: .*; identity and name are left out here\.$/m,
    / {2}\| The kept table has 205 bytes, CRC [0-9A-F]{4}, table 00A2\.$/m,
  ]) {
    expect(text).toMatch(line);
  }
  expect(text).not.toContain('Penmarrow');
  await front.pty.close();
  await board.close();

  const gone = await typed('report', '--port', path, '--json');
  expect(gone.exit).toBe(0);
  expect(gone.json()).toMatchObject({ ok: true, name: expect.stringMatching(/^amberwick-report-.*Z\.txt$/) });
  expect(gone.json().text).toMatch(/^ {2}problem +portMissing$/m);
  expect(gone.json().text).toMatch(/^ {2}firmware +not known \(unknown\)$/m);
});

test('to a place that cannot be written it says so', async () => {
  const { exit, err } = await typed('report', '-o', join(folder, 'none', 'report.txt'));
  expect(exit).toBe(1);
  expect(err).toContain('could not be written.');
});
