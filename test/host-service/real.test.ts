import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { litDigits } from '../../electron/host/service/live-view.ts';
import type { PinWatch } from '../../electron/host/service/virtual-boards.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LampWires } from '../../electron/host/virtual/lamps.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { openPty } from '../../electron/host/virtual/pty.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import type { Events, LogEntry } from '../../shared/workbench/contract.ts';
import { emptyFolder, start } from './panel.ts';

it('the whole job on the shipped firmware: open, send, watch, nudge, keep, power cut, read back, log', async () => {
  const data = emptyFolder();
  const bench = await start(data);
  expect(bench.printed).toEqual([
    expect.stringMatching(/^Amberwick runs at http:\/\/127\.0\.0\.1:\d+\/\?ticket=[\w-]{32}$/),
  ]);
  const fresh = await bench.settled((state) => state.kept === 'same' && state.task === null);
  expect(fresh).toMatchObject({ link: 'ready', virtual: true, powered: true, running: 'same', unkept: false });
  expect(fresh.who?.chip).toBe('atmega328p');

  // The lamps run: Market Cross goes from green to amber after its 18 seconds, here in a tenth of them.
  await bench.done('speed', { board: 'town', factor: 10 });
  const amber = await bench.next('row', ({ site, row }) => site === 0 && row === 1);
  const red = await bench.next('row', ({ site, row }) => site === 0 && row === 2);
  expect(red.ms - amber.ms).toBe(3000);
  await bench.done('speed', { board: 'town', factor: 1 });

  expect(await bench.done('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 })).toEqual({ ms: 20_000 });
  expect(await bench.board()).toMatchObject({ running: 'times', kept: 'same', unkept: true });
  expect(await bench.done('putBack', { board: 'town' })).toMatchObject({ running: 'same', unkept: false });
  await bench.done('nudge', { board: 'town', site: 0, dial: 0, ms: 21_500 });
  expect(await bench.done('keep', { board: 'town' })).toEqual({ keeps: 2 });
  await bench.done('nudge', { board: 'town', site: 1, dial: 0, ms: 30_000 });

  const off = await bench.done('power', { board: 'town', on: false });
  expect(off).toMatchObject({ link: 'lost', powered: false, problem: { code: 'powerOff' } });
  const on = await bench.done('power', { board: 'town', on: true });
  expect(on).toMatchObject({ link: 'ready', powered: true, running: 'times', kept: 'times', unkept: false });
  expect(on.runningDials?.[0]?.[0]).toBe(21_500);
  expect(on.runningDials?.[1]?.[0]).toBe(25_000);

  const { text } = await bench.done('readLog', {});
  const entries: LogEntry[] = text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(entries.map(({ number }) => number)).toEqual(entries.map((_, index) => index + 1));
  const texts = entries.map((entry) => entry.text);
  for (const line of [
    'Kept on Town board: the whole layout.',
    'Changed Market Cross green of Fore Street from 18.0 s to 20.0 s on Town board.',
    'Put back on Town board: Market Cross green of Fore Street 18.0 s.',
    'Kept on Town board: Market Cross green of Fore Street 21.5 s.',
    'Switched the virtual board off (Town board).',
    'Switched the virtual board on (Town board).',
  ]) {
    expect(texts).toContain(line);
  }
  await bench.close();
  const [file = ''] = readdirSync(join(data, 'sessions'));
  expect(readFileSync(join(data, 'sessions', file), 'utf8').startsWith(text)).toBe(true);

  // The next day: the virtual board has kept it, and nothing is sent to it.
  const again = await start(data);
  const kept = await again.settled(
    (state) => state.link === 'ready' && state.running !== 'unknown' && state.task === null,
  );
  expect(kept).toMatchObject({ running: 'times', kept: 'times', keeps: 2 });
  expect(kept.runningDials?.[0]?.[0]).toBe(21_500);
  await again.close();
  const logs = readdirSync(join(data, 'sessions')).map((name) => readFileSync(join(data, 'sessions', name), 'utf8'));
  expect(logs).toHaveLength(2);
  expect(logs.filter((log) => log.includes('"upload"'))).toHaveLength(1);
});

it('holds, steps and pauses the firmware, and tells what stands', async () => {
  const bench = await start(emptyFolder());
  await bench.settled((state) => state.kept === 'same' && state.task === null);
  await bench.done('hold', { board: 'town', site: 0, on: true });
  expect((await bench.board()).held).toEqual([true, false, false]);
  expect(await bench.done('step', { board: 'town', site: 0 })).toEqual({ row: 0 });
  const scene = await bench.done('look', {});
  expect(scene.live[0]?.rows[0]?.row).toBe(1);
  await bench.done('pause', { board: 'town', on: true });
  expect(await bench.board()).toMatchObject({ paused: true });
  await bench.done('pause', { board: 'town', on: false });
  await bench.done('master', { board: 'town', state: 'off' });
  expect(await bench.board()).toMatchObject({ paused: false, master: 'off' });
  expect((await bench.done('look', {})).live[0]?.lit).toMatch(/^0+$/);
  const outcome = await bench.workbench.call('nudge', { board: 'town', site: 0, dial: 0, ms: 10 });
  expect(outcome).toMatchObject({ ok: false, problem: { code: 'refused', detail: 'code 4' } });
  await bench.close();
});

it('tells the lamps exactly as the pins of the chip show them', async () => {
  const { layout } = parseLayout(EXAMPLE.text);
  const table = layout && compileLayout(layout).boards[0]?.table;
  if (!table) throw new Error('no table');
  const pins: { ms: number; lit: string }[] = [];
  const wires = new LampWires(table, (_lamp, _lit, cycles) =>
    pins.push({ ms: cycles / 16_000, lit: litDigits(wires.lit) }),
  );
  const onLevels: PinWatch = (_, changes) => {
    for (const { chain, number, level, cycles } of changes) {
      if (!chain) wires.pin(number, level, cycles);
    }
  };
  const bench = await start(emptyFolder(), { onLevels });
  await bench.settled((state) => state.kept === 'same' && state.task === null);
  await bench.done('speed', { board: 'town', factor: 20 });
  bench.heard.length = 0;
  const begin = await bench.next('lamps', () => true);
  await bench.next('lamps', ({ ms }) => ms > begin.ms + 600_000);
  await bench.close();

  const told = bench.heard.flatMap(({ name, data }) => (name === 'lamps' ? [data as Events['lamps']] : []));
  expect(told.length).toBeGreaterThan(700);
  // Lamps of one interval change together: what counts at the pins is how they stand afterwards.
  const shown = pins.filter((change, index) => (pins[index + 1]?.ms ?? Number.POSITIVE_INFINITY) - change.ms > 0.5);
  // The clock of the board starts a little after its power.
  const first = shown.find(({ ms, lit }) => lit === begin.lit && ms >= begin.ms && ms < begin.ms + 300);
  if (!first) throw new Error('the first change told was not at the pins');
  const bootMs = first.ms - begin.ms;
  const end = begin.ms + 600_000;
  const atPins = shown.map(({ ms, lit }) => ({ ms: ms - bootMs, lit })).filter(({ ms }) => ms > begin.ms - 1);
  // Nothing was lost on the way, so nothing had to be made good by a snapshot.
  expect(bench.heard.filter(({ name }) => name === 'live')).toEqual([]);
  const inTime = told.filter(({ ms }) => ms <= end);
  expect(inTime.map(({ lit }) => lit)).toEqual(atPins.slice(0, inTime.length).map(({ lit }) => lit));
  expect(atPins[inTime.length]?.ms).toBeGreaterThan(end - 1);
  // The board counts whole milliseconds, and each pin follows its tick, the first one's too.
  for (const [index, { ms }] of inTime.entries()) expect(Math.abs(ms - (atPins[index]?.ms ?? 0))).toBeLessThan(2);
});

it('does the same over a serial device with the real binding, and notices when it goes', async () => {
  const image = loadImage('atmega328p');
  if (!image.ok) throw new Error(image.error);
  const live = new LiveBoard({ chip: 'atmega328p', flash: image.flash });
  live.power(true);
  const front = await openPty(live);
  if (!front.ok) throw new Error(front.error);
  const { path } = front.pty;

  const bench = await start(emptyFolder());
  await bench.settled((state) => state.kept === 'same' && state.task === null);
  const connected = await bench.done('connect', { board: 'town', port: path });
  expect(connected).toMatchObject({ link: 'ready', virtual: false, port: path, running: 'none', powered: null });
  expect(await bench.done('send', { board: 'town' })).toMatchObject({ running: 'same', kept: 'none', unkept: true });
  await bench.next('lamps', () => true);
  await bench.done('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
  expect(await bench.done('keep', { board: 'town' })).toEqual({ keeps: 1 });

  // A reset at the pin, as another program gives that opens the port: the board says hello and is read again.
  await bench.done('nudge', { board: 'town', site: 0, dial: 0, ms: 25_000 });
  live.reset();
  const restarted = await bench.next(
    'board',
    (state) => state.link === 'ready' && !state.unkept && state.task === null && state.resetCause === 'reset',
  );
  expect(restarted.runningDials?.[0]?.[0]).toBe(20_000);

  const lost = bench.next('board', (state) => state.link === 'lost');
  await front.pty.close();
  expect(await lost).toMatchObject({ problem: { code: 'cableOut' }, running: 'unknown' });
  await bench.close();
  await live.close();
});
