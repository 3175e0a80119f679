import { expect, test } from 'vitest';
import { firstDifference, PARKING, pagesOf } from '../../electron/host/loader/pages.ts';
import type { LoaderKind, WriteOptions, WriteStage } from '../../electron/host/loader/types.ts';
import { askLoader, writeFirmware } from '../../electron/host/loader/write.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { type FakeLoader, framed, largeBoard, newerBoard, olderBoard, SIGNATURES, settled } from './fake-loader.ts';

/** 1,000 bytes, none of them blank, in a flash that is blank after them. */
const image = new Uint8Array(32_768).fill(0xff);
image.set(Uint8Array.from({ length: 1000 }, (_, at) => (at * 7) % 251));
const old = Uint8Array.from({ length: 2048 }, (_, at) => (at * 3) % 249);

function withOldProgram(board: FakeLoader): FakeLoader {
  board.flash.set(old);
  return board;
}

function write(board: FakeLoader, more: Partial<WriteOptions> = {}) {
  const clock = new FakeClock();
  return settled(clock, writeFirmware({ open: board.open, clock, chip: null, image: () => image, ...more }));
}

type State = 'old' | 'parked' | 'new' | 'broken';

/** What the chip would run. */
function state(board: FakeLoader, size = 128): State {
  const { flash } = board;
  if (firstDifference(flash, image.subarray(0, 1000)) === null) return 'new';
  if (firstDifference(flash, old) === null) return 'old';
  return firstDifference(flash, pagesOf(image, size).parking) === null ? 'parked' : 'broken';
}

test('an image becomes pages without gaps; the parking page holds cli, wdr and a jump back', () => {
  const { pages, bytes, parking } = pagesOf(image, 128);
  expect([bytes, pages.length]).toEqual([1000, 8]);
  expect(pages[7]?.subarray(103, 106)).toEqual(Uint8Array.of((999 * 7) % 251, 0xff, 0xff));
  // As avr-objdump shows them: f8 94 cli, a8 95 wdr, fe cf rjmp .-4.
  expect(Buffer.from(PARKING).toString('hex')).toBe('f894a895fecf');
  expect(parking.subarray(0, 7)).toEqual(Uint8Array.of(0xf8, 0x94, 0xa8, 0x95, 0xfe, 0xcf, 0xff));
});

test.each<[string, () => FakeLoader, LoaderKind, string]>([
  ['the newer, small loader', newerBoard, 'v1-115200', 'ATmega328P'],
  ['the older loader', olderBoard, 'v1-57600', 'ATmega328P'],
  ['the loader of the large chip', largeBoard, 'v2-115200', 'ATmega2560'],
])('%s is found and the image written, and the program started', async (_, make, loader, name) => {
  const board = withOldProgram(make());
  const done = await write(board);
  expect(done).toMatchObject({ ok: true, value: { loader, bytes: 1000, silicon: { name } } });
  expect(state(board)).toBe('new');
  // The loader of the large chip is left before its second reset, too.
  expect([board.leaves, board.isInLoader]).toEqual([loader === 'v2-115200' ? 2 : 1, false]);
  expect(board.closes).toBe(board.opens.length);
});

test('the smaller sibling gets the same image and tells its lower current', async () => {
  const done = await write(newerBoard({ signature: SIGNATURES.mega328pb }), { chip: 'atmega328p' });
  expect(done).toMatchObject({
    ok: true,
    value: { silicon: { name: 'ATmega328PB', signature: '1E9516', totalMilliamps: 100 } },
  });
});

test('what is likely is tried first; the chip of the layout leads to its loaders', async () => {
  const likely = olderBoard();
  await write(likely, { likely: 'v1-57600' });
  expect(likely.opens).toEqual([57_600]);
  const large = largeBoard();
  await write(large, { chip: 'atmega2560' });
  expect(large.opens).toEqual([115_200]);
});

test('page 0 is parked first and gets what belongs there last; the large chip is reset for it once more', async () => {
  const small = newerBoard();
  await write(small, { likely: 'v1-115200' });
  const addresses = small.heard.flatMap((message, index) => {
    const [, low = 0, high = 0] = Buffer.from(message, 'hex');
    return small.heard[index + 1]?.startsWith('64') ? [(low + high * 256) * 2] : [];
  });
  expect(addresses).toEqual([0, 0x80, 0x100, 0x180, 0x200, 0x280, 0x300, 0x380, 0]);
  expect(small.resets).toBe(1);
  const large = largeBoard();
  await write(large, { likely: 'v2-115200' });
  expect(large.resets).toBe(2);
});

test('progress counts bytes and reaches its total in both measures', async () => {
  const told: [WriteStage, number, number][] = [];
  await write(newerBoard(), { onStage: (...stage) => told.push(stage) });
  expect(told[0]).toEqual(['reset', 0, 0]);
  expect(told.filter(([stage]) => stage === 'write').map(([, done]) => done)).toEqual([
    ...[0, 128, 256, 384, 512, 640, 768, 896, 1024, 1024, 1152],
  ]);
  expect(told.filter(([stage]) => stage === 'verify').at(-1)).toEqual(['verify', 1152, 1152]);
});

test('nothing is written to another chip, an unknown one, or beyond the room of the loader', async () => {
  const other = withOldProgram(largeBoard());
  expect(await write(other, { chip: 'atmega328p' })).toMatchObject({
    ok: false,
    error: { kind: 'wrongChip', found: { name: 'ATmega2560' } },
  });
  const unknown = withOldProgram(newerBoard({ signature: SIGNATURES.other }));
  expect(await write(unknown)).toEqual({ ok: false, error: { kind: 'unknownChip', signature: '1E930B' } });
  const full = new Uint8Array(32_768).fill(0xff).fill(1, 0, 31_000);
  const small = withOldProgram(olderBoard());
  expect(await write(small, { image: () => full })).toEqual({
    ok: false,
    error: { kind: 'tooLarge', bytes: 31_000, room: 30_720 },
  });
  const none = withOldProgram(newerBoard());
  expect(await write(none, { image: () => null })).toEqual({
    ok: false,
    error: { kind: 'noImage', chip: 'atmega328p' },
  });
  for (const board of [other, unknown, small, none]) {
    expect(state(board)).toBe('old');
    // The program goes on at once.
    expect([board.leaves, board.isInLoader, board.closes]).toEqual([1, false, board.opens.length]);
  }
  const fits = newerBoard();
  expect(await write(fits, { image: () => full })).toMatchObject({ ok: true, value: { bytes: 31_000 } });
});

test.each([
  ['newer', newerBoard, 128],
  ['large', largeBoard, 256],
] as const)(
  '%s: called off after every page, the chip is as it was or parked, and then takes it',
  async (_, make, size) => {
    for (let stop = 0; stop < 20; stop++) {
      const board = withOldProgram(make());
      const calledOff = new AbortController();
      let stages = 0;
      const done = await write(board, {
        signal: calledOff.signal,
        onStage: () => {
          if (stages++ === stop) calledOff.abort();
        },
      });
      if (done.ok) {
        expect(state(board)).toBe('new');
        continue;
      }
      const isBegun = state(board) !== 'old';
      expect(done.error).toEqual({ kind: 'cancelled', leftAs: isBegun ? 'empty' : 'untouched' });
      expect(state(board, size)).toBe(isBegun ? 'parked' : 'old');
      expect(board.closes).toBe(board.opens.length);
      expect(await write(board)).toMatchObject({ ok: true });
      expect(state(board)).toBe('new');
    }
  },
);

test.each([
  ['newer', newerBoard, 128],
  ['large', largeBoard, 256],
] as const)('%s: unplugged at every message, then done again', async (_, make, size) => {
  for (let at = 1; ; at++) {
    const board = withOldProgram(make());
    board.fate = (count) => (count === at ? 'unplug' : 'fine');
    const done = await write(board);
    // The last message only starts the program.
    if (done.ok) {
      expect(state(board)).toBe('new');
      break;
    }
    expect(done.error.kind).toBe('ended');
    const left = state(board, size);
    expect(['old', 'parked', 'new']).toContain(left);
    if (left === 'parked') expect(done.error).toMatchObject({ leftAs: 'empty' });
    board.fate = () => 'fine';
    expect(await write(board)).toMatchObject({ ok: true });
    expect(state(board)).toBe('new');
  }
});

test.each([
  ['newer', newerBoard],
  ['large', largeBoard],
] as const)('%s: each message lost once, or done without its answer heard, is made good', async (_, make) => {
  for (const fate of ['lost', 'unheard'] as const) {
    for (let at = 1; at < 50; at++) {
      const board = withOldProgram(make());
      board.fate = (count) => (count === at ? fate : 'fine');
      expect(await write(board)).toMatchObject({ ok: true });
      expect(state(board)).toBe('new');
    }
  }
});

test('a page of which the memory is worn is told with its address, and the board stays parked', async () => {
  for (const make of [newerBoard, largeBoard]) {
    const board = withOldProgram(make());
    board.misread = (at, byte) => (at === 700 ? byte ^ 1 : byte);
    expect(await write(board)).toEqual({ ok: false, error: { kind: 'differs', at: 700, leftAs: 'empty' } });
    expect(firstDifference(board.flash, PARKING)).toBeNull();
  }
});

test('a byte misread once is read again, and nothing is written for it', async () => {
  const board = newerBoard();
  let misread = 0;
  board.misread = (at, byte) => (at === 700 && misread++ === 0 ? byte ^ 1 : byte);
  expect(await write(board)).toMatchObject({ ok: true });
  expect(board.heard.filter((message) => message.startsWith('64'))).toHaveLength(9);
});

test('a page that went to another address is found and everything from there written anew', async () => {
  const board = newerBoard();
  let hurt = 0;
  board.fate = (count, command) => {
    // The third page is taken for the second one.
    if (command === 0x55 && board.heard[count - 1] === '55800020' && hurt++ === 0) return Uint8Array.of(0x14, 0x10);
    return 'fine';
  };
  expect(await write(board)).toMatchObject({ ok: true });
  expect(state(board)).toBe('new');
});

test('a board without a reset line: opening resets it', async () => {
  const board = newerBoard({ hasReset: false, opensInLoader: true });
  expect(await write(board, { likely: 'v1-115200' })).toMatchObject({ ok: true });
});

test.each([
  ['newer', () => newerBoard({ hasReset: false })],
  ['older', () => olderBoard({ hasReset: false })],
  ['large', () => largeBoard({ hasReset: false })],
  ['newer, with a capacitor', () => newerBoard({ hasReset: 'swallowed' })],
  ['large, with a capacitor', () => largeBoard({ hasReset: 'swallowed' })],
] as const)('%s: where nothing resets the board, the person presses its button, again if need be', async (_, make) => {
  const board = withOldProgram(make());
  const stages: WriteStage[] = [];
  const clock = new FakeClock();
  const done = writeFirmware({
    open: board.open,
    clock,
    chip: null,
    image: () => image,
    onStage: (stage) => {
      if (stages.at(-1) !== stage) stages.push(stage);
    },
  });
  let isDone = false;
  void done.then(() => {
    isDone = true;
  });
  for (let n = 0; n < 100 && !isDone; n++) {
    await clock.advance(500);
    if (stages.at(-1) === 'press') board.pressReset();
  }
  expect(await done).toMatchObject({ ok: true });
  expect(stages.slice(0, 3)).toEqual(['reset', 'press', 'write']);
  expect(state(board)).toBe('new');
});

test('nobody there: says whether the reset worked and whether anything talks', async () => {
  const silent = newerBoard({ baud: 9600 });
  expect(await write(silent)).toEqual({ ok: false, error: { kind: 'noLoader', pulsed: true, heardBytes: false } });
  const talking = newerBoard({ baud: 9600, hasReset: false });
  const chatter = talking.open;
  const open: typeof chatter = async (baud) => {
    const opened = await chatter(baud);
    setImmediate(() => talking.say(0x68, 0x69));
    return opened;
  };
  expect(await write(talking, { open })).toEqual({
    ok: false,
    error: { kind: 'noLoader', pulsed: false, heardBytes: true },
  });
  expect(talking.closes).toBe(talking.opens.length);
});

test('a port that does not open is told as it is', async () => {
  const error = { kind: 'busy', detail: 'Cannot lock port' } as const;
  const open: WriteOptions['open'] = async () => ({ ok: false, error });
  expect(await write(newerBoard(), { open })).toEqual({ ok: false, error: { kind: 'open', error } });
});

test('asking only who is there writes nothing and lets the program go on', async () => {
  const board = withOldProgram(largeBoard());
  const clock = new FakeClock();
  const met = await settled(clock, askLoader({ open: board.open, clock, chip: null }));
  expect(met).toMatchObject({ ok: true, value: { loader: 'v2-115200', signature: '1E9801' } });
  expect([state(board), board.isInLoader]).toEqual(['old', false]);
});

test('a signature that is heard differently once is read until it is heard twice alike', async () => {
  const board = largeBoard();
  let asked = 0;
  board.fate = (count, command) => {
    const number = Number.parseInt(board.heard[count - 1]?.slice(2, 4) ?? '', 16);
    return command === 0x1b && ++asked === 3 ? Uint8Array.from(framed(number, [0x1b, 0, 0x02, 0])) : 'fine';
  };
  expect(await write(board)).toMatchObject({ ok: true, value: { silicon: { signature: '1E9801' } } });
});
