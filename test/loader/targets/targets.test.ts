import { expect, it } from 'vitest';
import type { LoaderLine } from '../../../electron/host/loader/line.ts';
import type { LoaderKind } from '../../../electron/host/loader/types.ts';
import { FakeClock } from '../../host/fake-clock.ts';
import { BareBoard, type BareBoardOptions } from '../bare-board.ts';
import { heardAt } from './rates.ts';

const bytes = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex.replaceAll(' ', ''), 'hex'));

/** A board with an open line, and a way to type bytes and read the answer, all in hexadecimal. */
async function bench(loader: LoaderKind, options: Partial<BareBoardOptions> = {}, baud?: number) {
  const clock = new FakeClock();
  const board = new BareBoard({ loader, clock, ...options });
  const opened = await board.openLoader(baud ?? board.target.baud);
  if (!opened.ok) throw new Error('not opened');
  const line: LoaderLine = opened.line;
  let heard: number[] = [];
  line.onData((data) => heard.push(...data));
  const type = async (hex: string, ms = 100): Promise<string> => {
    heard = [];
    line.write(bytes(hex));
    await clock.advance(ms);
    return Buffer.from(heard).toString('hex').replace(/../g, '$& ').trim();
  };
  return { clock, board, line, type, heard: () => Buffer.from(heard).toString('latin1') };
}

for (const loader of ['v1-115200', 'v1-57600'] as const) {
  it(`${loader}: answers the published exchanges`, async () => {
    // Frames as in the application note AVR061, as collected with our published facts.
    const { type, board } = await bench(loader);
    expect(await type('30 20')).toBe('14 10');
    expect(await type('75 20')).toBe('14 1e 95 0f 10');
    // Byte address 0x100 is word address 0x80, low byte first.
    expect(await type('55 80 00 20')).toBe('14 10');
    expect(await type(`64 00 80 46 ${'a5'.repeat(128)} 20`)).toBe('14 10');
    expect(board.flash.written).toEqual([0x100]);
    expect(await type('55 80 00 20')).toBe('14 10');
    expect(await type('74 00 80 46 20')).toBe(`14 ${'a5 '.repeat(128)}10`);
    // The EEPROM is asked for, and flash comes.
    await type('55 80 00 20');
    expect(await type('74 00 02 45 20')).toBe('14 a5 a5 10');
    expect(await type('51 20')).toBe('14 10');
  });
}

it('the newer loader resets at a wrong end byte and then is deaf, the older one forgives four', async () => {
  const newer = await bench('v1-115200');
  expect(await newer.type('30 21')).toBe('');
  expect(newer.board.state).toBe('program');
  expect(await newer.type('30 20')).toBe('');

  const older = await bench('v1-57600', { flash: bytes('ff cf') });
  for (let mistake = 1; mistake <= 4; mistake++) expect(await older.type('30 21')).toBe('');
  expect(await older.type('30 20')).toBe('14 10');
  expect(await older.type('30 21')).toBe('');
  expect(older.board.state).toBe('program');
});

it('cut off inside a page, the newer loader leaves it erased, the older one as it was', async () => {
  const old = new Uint8Array(256).fill(0x55);
  for (const [loader, left] of [
    ['v1-115200', 0xff],
    ['v1-57600', 0x55],
  ] as const) {
    const { type, board } = await bench(loader, { flash: old });
    await type('55 00 00 20');
    await type(`64 00 80 46 ${'12'.repeat(100)}`);
    board.unplug();
    expect([...board.flash.bytes.subarray(0, 128)]).toEqual(new Array(128).fill(left));
    expect(board.flash.bytes[128]).toBe(0x55);
  }
});

it('the parts that the loaders themselves lie in are not written', async () => {
  for (const [loader, low, high, first] of [
    ['v1-115200', '80', '3e', 0x7d00],
    ['v1-57600', '80', '3b', 0x7700],
  ] as const) {
    const { type, board } = await bench(loader);
    await type(`55 ${low} ${high} 20`);
    await type(`64 00 80 46 ${'00'.repeat(128)} 20`);
    expect(board.flash.written).toEqual([first]);
    const next = loader === 'v1-115200' ? '00 3f' : '00 3c';
    await type(`55 ${next} 20`);
    expect(await type(`64 00 80 46 ${'00'.repeat(128)} 20`)).toBe('14 10');
    expect(board.flash.written).toEqual([first]);
    expect(board.flash.bytes[board.flash.loaderStart]).toBe(0xff);
  }
});

it('gives up after its patience and lets the program run; silence of the host is what counts', async () => {
  const { clock, type, board } = await bench('v1-115200', { flash: bytes('ff cf') });
  expect(await type('30 20', 900)).toBe('14 10');
  expect(await type('30 20', 900)).toBe('14 10');
  expect(board.state).toBe('loader');
  await clock.advance(200);
  expect(board.state).toBe('program');
});

/** An AVR068 frame around a body. */
function frame(sequence: number, body: string): string {
  const inside = bytes(body);
  const head = [0x1b, sequence, inside.length >> 8, inside.length & 0xff, 0x0e, ...inside];
  return Buffer.from([...head, head.reduce((sum, byte) => sum ^ byte, 0)]).toString('hex');
}

it('v2: answers the published exchanges', async () => {
  const { type, board } = await bench('v2-115200');
  // Sign-on and load address as collected with our published facts (AVR068).
  expect(await type('1b 01 00 01 0e 01 14')).toMatch(/^1b 01 00 0b 0e 01 00 08 41 56 52 49 53 50 5f 32 /);
  expect(await type('1b 02 00 05 0e 06 80 00 80 00 14')).toBe('1b 02 00 02 0e 06 00 13');
  expect(await type(frame(3, `13 0100 c1 0a 40 4c 20 00 00 ${'3c'.repeat(256)}`))).toBe('1b 03 00 02 0e 13 00 07');
  expect(board.flash.written).toEqual([0x10000]);
  expect(await type(frame(4, '06 80 00 80 00'))).not.toBe('');
  expect(await type(frame(5, '14 0002 20'))).toBe('1b 05 00 05 0e 14 00 3c 3c 00 01');
  const signature = [];
  for (const index of [0, 1, 2])
    signature.push((await type(frame(6 + index, `1b 04 30 00 0${index} 00`))).split(' ')[7]);
  expect(signature).toEqual(['1e', '98', '01']);
  expect((await type(frame(9, '12 2d 00 ac 80 00 00'))).split(' ').slice(5, 7)).toEqual(['12', 'c0']);
});

it('v2: erases by its own count, so that a page out of order is laid over what was there', async () => {
  const { type, board } = await bench('v2-115200', { flash: new Uint8Array(1024).fill(0x0f) });
  await type(frame(1, '01'));
  await type(frame(2, '06 80 00 01 00'));
  await type(frame(3, `13 0100 c1 0a 40 4c 20 00 00 ${'f3'.repeat(256)}`));
  expect(board.flash.bytes[0]).toBe(0xff);
  expect(board.flash.bytes[0x200]).toBe(0x03);
});

it('v2: drops wrong sums, and numbers that are neither 1 nor the next', async () => {
  const { type, board } = await bench('v2-115200');
  expect(await type('1b 01 00 01 0e 01 15')).toBe('');
  expect(await type(frame(1, '01'))).not.toBe('');
  expect(await type(frame(4, '01'))).toBe('');
  expect(await type(frame(2, '01'))).not.toBe('');
  // The same frame once more, as if its answer had been lost.
  expect(await type(frame(2, '01'))).toBe('');
  expect(await type(frame(1, '01'))).not.toBe('');
  expect(board.commands).toEqual([1, 1, 1]);
  const lenient = await bench('v2-115200', { strictSequence: false });
  expect(await lenient.type(frame(77, '01'))).not.toBe('');
});

it('v2: three marks among the first bytes open the monitor; an empty board listens for ever', async () => {
  const { clock, type, board, heard } = await bench('v2-115200');
  await clock.advance(60_000);
  expect(board.state).toBe('loader');
  await type('21 21 21');
  expect(heard()).toContain('Monitor');
  expect(await type(frame(1, '01'))).toBe('');
  board.pressReset();
  expect(await type(frame(1, '01'))).not.toBe('');
});

it('at the wrong rate a loader hears garbage and so does the host', async () => {
  const { type, board } = await bench('v1-57600', {}, 115_200);
  expect(await type('30 20')).not.toContain('14 10');
  expect(board.commands).toEqual([]);
  // By hand: the sender's row 0 00001100 1 0 00000100 1 fills ten bit times of the receiver, who reads places
  // 3, 5, 7 ... 17 of it (counted from 0) as a byte and place 19 as its stop bit.
  expect(heardAt(bytes('30 20'), 115_200, 57_600)).toEqual([{ byte: 0b0000_1010, broken: false }]);
  expect(heardAt(bytes('30 20'), 57_600, 57_600)).toEqual([
    { byte: 0x30, broken: false },
    { byte: 0x20, broken: false },
  ]);
});
