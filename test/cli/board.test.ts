import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { openPty } from '../../electron/host/virtual/pty.ts';
import { example, typed } from './typed.ts';

const penmarrow = example('penmarrow');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-board-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the main job on the virtual board, whose memory outlives each command', async () => {
  const virtual = ['--port', 'virtual', '--data', join(folder, 'data'), '--json'];

  const fresh = await typed('identify', ...virtual);
  expect(fresh.json()).toMatchObject({ ok: true, who: { firmware: '1.2.0', shape: null }, state: { keeps: 0 } });
  expect((await typed('nudge', '0', '0', '20', ...virtual)).json()).toMatchObject({
    ok: false,
    problem: { code: 'refused' },
  });

  const sent = await typed('send', penmarrow, ...virtual, '--keep');
  expect([sent.exit, sent.json()]).toMatchObject([0, { kept: true, bytes: 205 }]);

  const started = await typed('identify', ...virtual.map((word) => (word === 'virtual' ? 'virtual:town' : word)));
  expect(started.json()).toMatchObject({ who: { shape: '00A2' }, state: { keeps: 1 } });
  expect(started.json().state.flags).toContain('table');

  const named = await typed('nudge', 'market-cross', 'green-1', '20.5s', '--layout', penmarrow, ...virtual);
  expect(named.json()).toMatchObject({ ok: true, site: 0, dial: expect.any(Number), from: 18_000, to: 20_500 });
  const outside = await typed('nudge', 'market-cross', 'green-1', '0.1', '--layout', penmarrow, ...virtual);
  expect([outside.exit, outside.json().problem.detail]).toEqual([1, 'code 4']);

  // Powered anew each time, so a nudge that was not kept is gone.
  const again = await typed('nudge', 'market-cross', 'green-1', '19', '--layout', penmarrow, ...virtual);
  expect(again.json()).toMatchObject({ from: 18_000, to: 19_000 });
  expect((await typed('keep', ...virtual)).json()).toMatchObject({ ok: true, keeps: 2 });
});

test('names that mean another table are refused', async () => {
  const virtual = ['--port', 'virtual:town', '--data', join(folder, 'other')];
  const refused = await typed('nudge', 'market-cross', 'green-1', '20', '--layout', penmarrow, ...virtual);
  expect(refused.exit).toBe(1);
  expect(refused.err).toContain('runs another layout');
});

test('through a device, as a real board is reached: send, watch, identify', async () => {
  const image = loadImage('atmega328p');
  if (!image.ok) throw new Error(image.error);
  const board = new LiveBoard({ chip: 'atmega328p', flash: image.flash });
  const front = await openPty(board);
  if (!front.ok) throw new Error(front.error);
  board.power(true);
  const port = ['--port', front.pty.path];
  expect((await typed('send', penmarrow, ...port)).out).toBe('Town board runs Penmarrow (205 bytes).\n');
  const watched = await typed('watch', ...port, '--layout', penmarrow, '--seconds', '2');
  expect(watched.exit).toBe(0);
  expect(watched.out).toMatch(/ lit: .*Harbour Crossing, (Harbour|Shop) side amber/);
  expect((await typed('identify', ...port)).out).toMatch(/table hash +00A2/);
  await front.pty.close();
  await board.close();
});

test('run: every edge as planned, and the dump holds each of them', async () => {
  const file = join(folder, 'town.vcd');
  const { exit, json } = await typed('run', penmarrow, '--hours', '0.02', '--vcd', file, '--json');
  expect(exit).toBe(0);
  const done = json();
  expect(done).toMatchObject({ wrong: 0, conflicts: 0 });
  expect(done.worst).toBeLessThan(1000);
  const body = readFileSync(file, 'utf8').split('$dumpvars')[1]?.split('$end\n')[1] ?? '';
  expect(body.match(/^[01]/gm)?.length).toBe(done.edges);
  // 72 s: the zebra's two beacons alone change 96 times each.
  expect(done.edges).toBeGreaterThan(192);
  const times = [...body.matchAll(/^#(\d+)$/gm)].map((match) => Number(match[1]));
  expect(times).toEqual([...times].sort((a, b) => a - b));
  expect(times.at(-1)).toBe(done.cycles * 625);
  // The board ran 72 s from the moment the host knew of the start.
  expect(done.cycles / 16_000_000).toBeCloseTo(72, 1);
});
