import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { SerialPorts } from '../../electron/host/service/ports.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { type FirmwareOptions, firmware } from '../../scripts/cli/firmware.ts';
import { loadGood } from '../../scripts/cli/load.ts';
import { ask } from '../../shared/link/requests.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { BareBoard } from '../loader/bare-board.ts';
import { settled } from '../loader/fake-loader.ts';
import { example, typed } from './typed.ts';

const shipped = loadImage('atmega328p');
if (!shipped.ok) throw new Error(shipped.error);
const version = shipped.shipped.firmware;
const penmarrow = loadGood(example('penmarrow'));
if (!penmarrow.ok) throw new Error('the example does not load');
const table = penmarrow.value.boards[0]?.image ?? new Uint8Array();

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-firmware-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function portsOf(...boards: readonly [BareBoard, ...BareBoard[]]): SerialPorts {
  let opened = 0;
  return {
    list: async () => [],
    // The last board stays.
    open: () => (boards[Math.min(opened++, boards.length - 1)] ?? boards[0]).open(),
    openLoader: (_, baud) => boards[0].openLoader(baud),
  };
}

/** Runs the command on boards in memory; `stop` is Ctrl+C. */
async function run(clock: FakeClock, ports: SerialPorts, more: Partial<FirmwareOptions> = {}, stop?: AbortSignal) {
  let said = '';
  let reached = '';
  const io = {
    out: () => {},
    err: (text: string) => {
      said += text;
    },
    progress: (done: number, total: number) => {
      reached = `${done} of ${total}`;
    },
  };
  const options = { port: 'ttyTown', data: folder, ...more };
  const signal = stop ?? new AbortController().signal;
  const report = await settled(clock, firmware(options, io, { ports, clock, signal }));
  return { report, said, reached };
}

async function keepPenmarrow(clock: FakeClock, board: BareBoard): Promise<void> {
  const opened = await board.open();
  if (!opened.ok) throw new Error(opened.error.kind);
  const session = new BoardSession(opened.stream, { clock });
  const work = async () => {
    expect((await session.greet()).ok).toBe(true);
    expect((await session.request(ask.label('00C0FFEE', 'Town'))).ok).toBe(true);
    expect((await upload(session, table)).ok).toBe(true);
    expect(await session.request(ask.keep())).toMatchObject({ ok: true });
  };
  await settled(clock, work());
  await session.close();
}

test('a bare board gets the firmware; later it gets it again and still keeps its table', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v1-115200', clock });
  const bytes = shipped.flash.findLastIndex((byte) => byte !== 0xff) + 1;

  const first = await run(clock, portsOf(board));
  expect(first.said).toBe(
    'Replaces the program on the board at ttyTown by the Amberwick firmware. What the board has kept stays.\n',
  );
  expect(first.report).toEqual({
    exit: 0,
    data: {
      ...{ port: 'ttyTown', loader: 'v1-115200', bytes, chip: 'ATmega328P', signature: '1E950F', totalMilliamps: 200 },
      ...{ before: null, firmware: version, kept: 'none' },
    },
    text: [
      `Wrote ${bytes} bytes to the ATmega328P and read them back.`,
      `The board runs firmware ${version}.`,
      'It keeps no table yet: send a layout.',
    ],
  });
  expect(board.flash.bytes.subarray(0, bytes)).toEqual(shipped.flash.subarray(0, bytes));

  await keepPenmarrow(clock, board);
  const again = await run(clock, portsOf(board));
  expect(again.said).toContain('Copied what the board keeps.');
  expect(again.report).toMatchObject({ exit: 0, data: { before: version, firmware: version, kept: 'survived' } });
  expect(again.report.text?.at(-1)).toBe('It still keeps the table that it kept before.');

  // The copy is in the book, under the identity of the board.
  expect(readdirSync(join(folder, 'boards'))).toEqual(['00C0FFEE.json']);
  const page = JSON.parse(readFileSync(join(folder, 'boards', '00C0FFEE.json'), 'utf8'));
  expect(page).toMatchObject({ name: 'Town', signature: '1E950F', loader: 'v1-115200' });
  expect(page.kept.image).toBe(Buffer.from(table).toString('hex').toUpperCase());
});

test('a table that did not survive is put back, and so is the name', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v1-115200', clock, flash: shipped.flash });
  await keepPenmarrow(clock, board);
  const emptied = new BareBoard({ loader: 'v1-115200', clock, flash: shipped.flash });
  const { report } = await run(clock, portsOf(board, emptied));
  expect(report).toMatchObject({ exit: 0, data: { kept: 'putBack' } });
  expect(report.text?.at(-1)).toBe('Its kept table was lost by the update and has been put back.');

  const opened = await emptied.open();
  if (!opened.ok) throw new Error(opened.error.kind);
  const session = new BoardSession(opened.stream, { clock });
  const met = await settled(clock, session.greet());
  expect(met).toMatchObject({ ok: true, value: { identity: '00C0FFEE', name: 'Town' } });
  expect(await settled(clock, session.request(ask.sum('kept')))).toMatchObject({
    ok: true,
    value: { length: table.length },
  });
  await session.close();
});

test('the smaller sibling: its lower current is told', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v1-57600', clock, signature: '1E9516' });
  const { report } = await run(clock, portsOf(board), { chip: 'atmega328p' });
  expect(report).toMatchObject({ exit: 0, data: { chip: 'ATmega328PB', totalMilliamps: 100, loader: 'v1-57600' } });
  expect(report.text?.[1]).toBe(
    'Its chip is an ATmega328PB: 100 mA for all lamps together, where an ATmega328P has 200 mA.',
  );
});

test('--check asks only who is there', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v2-115200', clock });
  const { report, said } = await run(clock, portsOf(board), { check: true });
  expect(said).toContain('Nothing is written.');
  expect(report).toEqual({
    exit: 0,
    data: {
      port: 'ttyTown',
      loader: 'v2-115200',
      signature: '1E9801',
      chip: 'ATmega2560',
      totalMilliamps: 200,
    },
    text: ['Signature 1E9801, behind the loader of the large chip at 115,200 baud.', 'The chip is an ATmega2560.'],
  });
  expect(board.flash.written).toEqual([]);
  const unknown = new BareBoard({ loader: 'v1-115200', clock, signature: '1E930B' });
  expect((await run(clock, portsOf(unknown), { check: true })).report).toMatchObject({
    exit: 1,
    problem: { code: 'loaderUnknownChip', detail: 'signature 1E930B' },
  });
});

test('another chip than the one asked for is left alone', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v2-115200', clock });
  const { report } = await run(clock, portsOf(board), { chip: 'atmega328p' });
  expect(report).toMatchObject({ exit: 1, problem: { code: 'loaderChip' } });
  expect(report.problem?.what).toBe('The chip at ttyTown is an ATmega2560, not the one of the layout.');
  expect(board.flash.written).toEqual([]);
});

test('Ctrl+C before the first page leaves the board as it was; in the middle, empty', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v1-115200', clock });
  const early = await run(clock, portsOf(board), {}, AbortSignal.abort());
  expect(early.report).toMatchObject({ exit: 1, problem: { code: 'firmwareCancelled' } });
  expect(board.flash.written).toEqual([]);

  const stop = new AbortController();
  const ports = portsOf(board);
  const watched: SerialPorts = {
    ...ports,
    openLoader: async (_, baud) => {
      const opened = await board.openLoader(baud);
      // After the first pages.
      clock.setTimer(1500, () => stop.abort());
      return opened;
    },
  };
  const half = await run(clock, watched, {}, stop.signal);
  expect(half.report).toMatchObject({ exit: 1, problem: { code: 'firmwareEmptied' } });
  expect(board.flash.bytes.subarray(0, 6)).toEqual(Uint8Array.of(0xf8, 0x94, 0xa8, 0x95, 0xfe, 0xcf));
});

test('as typed: the virtual board, a strange chip and a port that is not there', async () => {
  const virtual = await typed('firmware', '--port', 'virtual', '--json');
  expect([virtual.exit, virtual.json().problem.code]).toEqual([1, 'notReal']);
  const strange = await typed('firmware', '--port', 'x', '--chip', 'z80', '--json');
  expect([strange.exit, strange.json().problem.what]).toEqual([2, '"z80" is no chip that there is firmware for.']);
  const missing = await typed('firmware', '--port', '/dev/amberwick-no-such-port', '--check', '--json');
  expect([missing.exit, missing.json().problem.code]).toEqual([1, 'portMissing']);
  expect((await typed('firmware')).exit).toBe(2);
});
