import { expect, test } from 'vitest';
import { readV2Messages, Stk500v2, V2_BODIES, v2Frame } from '../../electron/host/loader/stk500v2.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { type FakeLoader, framed, largeBoard, settled } from './fake-loader.ts';

const hex = (bytes: Iterable<number>) =>
  Buffer.from([...bytes])
    .toString('hex')
    .toUpperCase();
const FLASH = 262_144;

test('messages are those of AVR068', () => {
  expect(hex(v2Frame(1, V2_BODIES.signOn()))).toBe('1B0100010E0114');
  expect(hex(v2Frame(2, V2_BODIES.loadAddress(0x10000, FLASH)))).toBe('1B0200050E06800080' + '0014');
  // Bit 31 belongs to chips with more than 64 KB; the byte address 0x3FE00 is word 0x1FF00.
  expect(hex(V2_BODIES.loadAddress(0x3fe00, FLASH))).toBe('068001FF00');
  expect(hex(V2_BODIES.loadAddress(0x100, 32_768))).toBe('0600000080');
  expect(hex(V2_BODIES.programPage(new Uint8Array(256)).slice(0, 3))).toBe('130100');
  expect(V2_BODIES.programPage(new Uint8Array(256))).toHaveLength(266);
  expect(hex(V2_BODIES.readPage(256))).toBe('14010020');
});

test('no message before the sign-on has an exclamation mark: three of them open the monitor of the loader', () => {
  expect([...v2Frame(1, V2_BODIES.signOn())]).not.toContain(0x21);
});

test('only whole messages with the right checksum count', () => {
  const good = framed(7, [0x06, 0x00]);
  const hurt = good.map((byte, at) => (at === 6 ? byte ^ 0x10 : byte));
  expect(readV2Messages(good.slice(0, -1))).toEqual([]);
  expect(readV2Messages(hurt)).toEqual([]);
  expect(readV2Messages([0x1b, 0x68, ...hurt, ...good, 0x0a])).toEqual([
    { sequence: 7, body: Uint8Array.of(0x06, 0x00) },
  ]);
});

async function signedOn(board: FakeLoader, clock: FakeClock): Promise<Stk500v2> {
  board.pressReset();
  const opened = await board.open(115_200);
  if (!opened.ok) throw new Error('not opened');
  const client = new Stk500v2(opened.line, clock, FLASH);
  expect(await settled(clock, client.signOn({ tries: 3 }))).toEqual({ ok: true, value: null });
  return client;
}

test('signs on with number 1, counts on from there, and reads the signature byte by byte', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  expect(await client.signature()).toEqual({ ok: true, value: '1E9801' });
  expect(board.heard.map((message) => message.slice(0, 12))).toEqual([
    '1b0100010e01',
    '1b02000c0e10',
    '1b0300060e1b',
    '1b0400060e1b',
    '1b0500060e1b',
  ]);
});

test('numbers wrap from 255 to 0', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  for (let n = 0; n < 127; n++) expect((await client.readPage(0, 2)).ok).toBe(true);
  expect(board.heard.slice(-3).map((message) => message.slice(2, 4))).toEqual(['fe', 'ff', '00']);
});

test('pages go in order from 0, and page 0 again only after a reset', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  const page = Uint8Array.from({ length: 256 }, (_, at) => at);
  expect([client.canProgram(0), client.canProgram(256)]).toEqual([true, false]);
  expect(await client.programPage(0, page)).toEqual({ ok: true, value: null });
  expect([client.canProgram(0), client.canProgram(256)]).toEqual([false, true]);
  expect(await client.readPage(0, 256)).toEqual({ ok: true, value: page });
  board.pressReset();
  await settled(clock, client.signOn({ tries: 3 }));
  expect(client.canProgram(0)).toBe(true);
});

test('an answer with another number or a wrong checksum is none', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  const strange = framed(1, [0x1b, 0x00, 0x33, 0x00]);
  const hurt = framed(3, [0x1b, 0x00, 0x33, 0x00]).map((byte, at) => (at === 7 ? 0x34 : byte));
  board.fate = (count) => (count === 3 ? Uint8Array.from([...strange, ...hurt]) : 'fine');
  expect(await settled(clock, client.signature())).toEqual({ ok: true, value: '1E9801' });
  // Asked again with the same number, since the loader may not have heard it.
  expect(board.heard.slice(2, 4).map((message) => message.slice(2, 4))).toEqual(['03', '03']);
});

test('a message is sent with its number again, then with the next, which a counting loader may be waiting for', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  board.fate = () => 'lost';
  expect(await settled(clock, client.signature())).toEqual({ ok: false, error: { kind: 'silent' } });
  expect(board.heard.slice(2).map((message) => message.slice(2, 4))).toEqual(['03', '03', '04', '04']);
});

test('a loader that found the checksum wrong gets it again; one that says failed four times is believed', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  board.fate = (count) => (count === 3 ? Uint8Array.from(framed(3, [0xb0, 0xc1])) : 'fine');
  expect(await settled(clock, client.signature())).toEqual({ ok: true, value: '1E9801' });
  board.fate = (_, command) =>
    command === 0x13
      ? Uint8Array.from(framed(Number.parseInt(board.heard.at(-1)?.slice(2, 4) ?? '', 16), [0x13, 0xc0]))
      : 'fine';
  const refused = await settled(clock, client.programPage(0, new Uint8Array(256)));
  expect(refused).toEqual({ ok: false, error: { kind: 'refused', detail: 'message 13 answered 13C0' } });
});

test('where a repeat would erase a finished page, a write is sent once', async () => {
  const clock = new FakeClock();
  const board = largeBoard();
  const client = await signedOn(board, clock);
  board.fate = (_, command) => (command === 0x13 ? 'unheard' : 'fine');
  expect(await settled(clock, client.programPage(0, new Uint8Array(256), true))).toMatchObject({ ok: false });
  expect(board.heard.filter((message) => message.slice(10, 12) === '13')).toHaveLength(1);
});
