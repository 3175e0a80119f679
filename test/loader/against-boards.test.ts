/** The way to write firmware against boards of every kind, as one meets them. */
import { expect, it } from 'vitest';
import type { WriteStage } from '../../electron/host/loader/types.ts';
import { writeFirmware } from '../../electron/host/loader/write.ts';
import { LISTEN_FIRST_MS } from '../../electron/host/patience.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import type { Chip } from '../../shared/table/format.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { BareBoard } from './bare-board.ts';
import { bench, finish, found, LOADER_KINDS, NEW, program } from './targets/drive.ts';
import { SIGNATURES } from './targets/kinds.ts';

function shipped(chip: Chip): Uint8Array {
  const image = loadImage(chip);
  if (!image.ok) throw new Error(image.error);
  return image.flash;
}

it('v2-115200: asked at once and again, the loader stays and the board never answers', async () => {
  const clock = new FakeClock();
  const board = new BareBoard({ loader: 'v2-115200', clock, flash: shipped('atmega2560') });
  const opened = await board.open();
  if (!opened.ok) throw new Error('the port is taken');
  const session = new BoardSession(opened.stream, { clock });
  expect(await finish(clock, session.greet())).toMatchObject({ ok: false, error: { kind: 'silent' } });
  expect(board.state).toBe('loader');
  await session.close();
});

for (const loader of LOADER_KINDS) {
  it(`${loader}: a factory-fresh board is found without being told which it is, and becomes ours`, async () => {
    const clock = new FakeClock();
    const eeprom = new Uint8Array(1024).map((_, at) => at & 0xff);
    const board = new BareBoard({ loader, clock, eeprom });
    const told: [WriteStage, number, number][] = [];
    const outcome = await finish(
      clock,
      writeFirmware({
        open: (baud) => board.openLoader(baud),
        clock,
        chip: null,
        image: shipped,
        onStage: (...stage) => told.push(stage),
      }),
    );
    const image = shipped(board.chip);
    const bytes = image.findLastIndex((byte) => byte !== 0xff) + 1;
    expect(outcome).toMatchObject({ ok: true, value: { loader, bytes, silicon: { chip: board.chip } } });
    expect(Buffer.from(board.flash.bytes.subarray(0, bytes)).equals(image.subarray(0, bytes))).toBe(true);
    // Page by page in order, the first one last.
    const { pageBytes, written } = board.flash;
    const pages = Array.from({ length: Math.ceil(bytes / pageBytes) }, (_, page) => page * pageBytes);
    expect(written).toEqual([...pages, 0]);
    expect(board.target.eepromCommands).toBe(0);
    expect(Buffer.from(board.eeprom.subarray(0, 1024)).equals(eeprom)).toBe(true);
    const [, done, total] = told.at(-1) ?? [];
    expect(done).toBe(total);
    expect(told.filter(([stage]) => stage === 'press')).toEqual([]);

    // The firmware runs and answers, at its own rate on a port that was let go.
    const opened = await board.open();
    if (!opened.ok) throw new Error('the port is still taken');
    const session = new BoardSession(opened.stream, { clock });
    expect(await finish(clock, session.greet(LISTEN_FIRST_MS))).toMatchObject({
      ok: true,
      value: { chip: board.chip },
    });
    await session.close();
  });

  it(`${loader}: a board with another program that talks all the time becomes ours`, async () => {
    const chatter = { says: 'temperature 21\r\n', everyMs: 20, baud: 9600 };
    const { board, old, wanted, write } = bench(loader, 3, { chatter });
    expect(await write({ chip: null })).toMatchObject({ ok: true });
    expect(found(board, old, wanted)).toBe('new');
  });

  it(`${loader}: a port without modem lines: opening it resets the board, and that is enough`, async () => {
    const { board, old, wanted, write } = bench(loader, 3, { modemLines: false });
    expect(await write()).toMatchObject({ ok: true });
    expect(found(board, old, wanted)).toBe('new');
  });

  it(`${loader}: nothing resets the board until somebody presses its button`, async () => {
    const one = bench(loader, 3, { modemLines: false, resetsOnOpen: false });
    const { board, old, wanted, clock, write } = one;
    // The program runs, as on a board that has been on for a while.
    await clock.advance(8000);
    expect(board.state).toBe('program');
    let asked = 0;
    const outcome = await write({
      onStage: (stage) => {
        if (stage !== 'press') return;
        asked += 1;
        clock.setTimer(2500, () => board.pressReset());
      },
    });
    expect(outcome).toMatchObject({ ok: true });
    expect(found(board, old, wanted)).toBe('new');
    // The ATmega2560's loader writes page 0 a second time only after another reset.
    expect(asked).toBe(loader === 'v2-115200' ? 2 : 1);
  });

  it(`${loader}: a reset pulse that is lost is given again`, async () => {
    const { board, old, wanted, write } = bench(loader, 3, { resetsOnOpen: false });
    board.setFaults({ lostPulses: 2 });
    expect(await write()).toMatchObject({ ok: true });
    expect(found(board, old, wanted)).toBe('new');
  });

  it(`${loader}: behind a capacitor no pulse arrives, and the board is left alone`, async () => {
    const { board, old, wanted, clock, write } = bench(loader, 3, { resetsOnOpen: false });
    board.setFaults({ lostPulses: Number.POSITIVE_INFINITY });
    await clock.advance(8000);
    expect(await write()).toMatchObject({ ok: false, error: { kind: 'noLoader', pulsed: true } });
    expect(found(board, old, wanted)).toBe('old');
    expect(board.flash.written).toEqual([]);
  });
}

it('the 328PB is told apart and takes the image of its sibling', async () => {
  const { board, old, wanted, write } = bench('v1-115200', 3, { signature: SIGNATURES.atmega328pb });
  expect(await write()).toMatchObject({
    ok: true,
    value: { silicon: { signature: '1E9516', chip: 'atmega328p', totalMilliamps: 100 } },
  });
  expect(found(board, old, wanted)).toBe('new');
});

it('an unknown chip, the wrong chip and an image that does not fit are left as they were, and run on', async () => {
  const strange = bench('v1-57600', 3, { signature: SIGNATURES.unknown });
  expect(await strange.write({ chip: null })).toMatchObject({
    ok: false,
    error: { kind: 'unknownChip', signature: '1E9406' },
  });
  const mega = bench('v2-115200', 3);
  expect(await mega.write({ chip: 'atmega328p', likely: 'v2-115200' })).toMatchObject({
    ok: false,
    error: { kind: 'wrongChip', found: { chip: 'atmega2560' } },
  });
  const full = bench('v1-57600', 3);
  const image = new Uint8Array(30_721).fill(1);
  expect(await full.write({ image: () => image })).toMatchObject({
    ok: false,
    error: { kind: 'tooLarge', bytes: 30_721, room: 30_720 },
  });
  // One byte fewer fits; the newer loader has room for it and more.
  expect(await full.write({ image: () => image.subarray(1) })).toMatchObject({ ok: true });
  const roomy = bench('v1-115200', 3);
  expect(await roomy.write({ image: () => new Uint8Array(32_256).fill(1) })).toMatchObject({ ok: true });
  for (const { board, old, wanted, clock } of [strange, mega]) {
    expect(board.flash.written).toEqual([]);
    expect(found(board, old, wanted)).toBe('old');
    await clock.advance(8000);
    expect(board.state).toBe('program');
  }
});

it('v2: pressed once only, the board is dark and says so, and done again it works', async () => {
  const { board, old, wanted, clock, write } = bench('v2-115200', 3, { modemLines: false, resetsOnOpen: false });
  await clock.advance(8000);
  let hasPressed = false;
  const outcome = await write({
    onStage: (stage) => {
      if (stage !== 'press' || hasPressed) return;
      hasPressed = true;
      clock.setTimer(2500, () => board.pressReset());
    },
  });
  expect(outcome).toEqual({ ok: false, error: { kind: 'silent', leftAs: 'empty' } });
  expect(found(board, old, wanted)).toBe('parked');
  expect(await write({ onStage: (stage) => stage === 'press' && board.pressReset() })).toMatchObject({ ok: true });
  expect(found(board, old, wanted)).toBe('new');
});

it('the newer builds of the ATmega2560 loader, which take any number, are as good', async () => {
  const { board, old, wanted, write } = bench('v2-115200', 3, { strictSequence: false });
  expect(await write()).toMatchObject({ ok: true });
  expect(found(board, old, wanted)).toBe('new');
});

it('the flash above 64 KB is reached', async () => {
  const { board, write } = bench('v2-115200', 3);
  // Each page ends otherwise.
  const image = program('atmega2560', NEW, 259);
  expect(await write({ image: () => image })).toMatchObject({ ok: true, value: { bytes: 0x10300 } });
  expect(Buffer.from(board.flash.bytes.subarray(0, image.length)).equals(image)).toBe(true);
});
