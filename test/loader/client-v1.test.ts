import { expect, test } from 'vitest';
import { readV1Answer, Stk500v1, V1_FRAMES } from '../../electron/host/loader/stk500v1.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { type FakeLoader, newerBoard, settled } from './fake-loader.ts';

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex').toUpperCase();

test('frames are those of AVR061', () => {
  expect(hex(V1_FRAMES.sync())).toBe('3020');
  expect(hex(V1_FRAMES.signature())).toBe('7520');
  // A word address, low byte first: byte 0x100 is word 0x80.
  expect(hex(V1_FRAMES.loadAddress(0x100))).toBe('55800020');
  expect(hex(V1_FRAMES.loadAddress(0x7c00))).toBe('55003E20');
  const page = Uint8Array.from({ length: 128 }, (_, at) => at);
  expect(hex(V1_FRAMES.programPage(page))).toBe(`64008046${hex(page)}20`);
  expect(hex(V1_FRAMES.readPage(128))).toBe('7400804620');
  expect(hex(V1_FRAMES.leave())).toBe('5120');
});

test('answers are read whole, and only as AVR061 has them', () => {
  expect(readV1Answer([], 0)).toBeNull();
  expect(readV1Answer([0x14], 0)).toBeNull();
  expect(readV1Answer([0x14, 0x10], 0)).toEqual({ ok: true, value: new Uint8Array() });
  expect(readV1Answer([0x14, 0x1e, 0x95, 0x0f], 3)).toBeNull();
  expect(readV1Answer([0x14, 0x1e, 0x95, 0x0f, 0x10], 3)).toEqual({ ok: true, value: Uint8Array.of(0x1e, 0x95, 0x0f) });
  expect(readV1Answer([0x14, 0x11], 0)).toMatchObject({ ok: false, error: { kind: 'refused' } });
  expect(readV1Answer([0x15], 0)).toMatchObject({ ok: false, error: { kind: 'garbled' } });
  expect(readV1Answer([0x14, 0x1e, 0x95, 0x0f, 0x0f], 3)).toMatchObject({ ok: false, error: { kind: 'garbled' } });
});

async function signedOn(board: FakeLoader, clock: FakeClock): Promise<Stk500v1> {
  board.pressReset();
  const opened = await board.open(115_200);
  if (!opened.ok) throw new Error('not opened');
  const client = new Stk500v1(opened.line, clock);
  expect(await settled(clock, client.signOn({ tries: 3 }))).toEqual({ ok: true, value: null });
  return client;
}

test('signs on, reads the signature, writes and reads a page', async () => {
  const clock = new FakeClock();
  const board = newerBoard();
  const client = await signedOn(board, clock);
  expect(board.heard).toEqual(['3020', '5020']);
  expect(await client.signature()).toEqual({ ok: true, value: '1E950F' });
  const page = Uint8Array.from({ length: 128 }, (_, at) => 255 - at);
  expect(await client.programPage(0x100, page)).toEqual({ ok: true, value: null });
  expect(await client.readPage(0x100, 128)).toEqual({ ok: true, value: page });
  expect(board.heard.slice(2)).toEqual(['7520', '55800020', '64008046', '55800020', '74008046']);
  expect(board.flash.subarray(0x100, 0x180)).toEqual(page);
  expect(await client.leave()).toBe(true);
});

test('chatter of the program before the answer to the first sync does no harm', async () => {
  const clock = new FakeClock();
  const board = newerBoard();
  board.fate = (count) => (count === 1 ? Uint8Array.of(0x68, 0x14, 0x69, 0x0a, 0x14, 0x10) : 'fine');
  await signedOn(board, clock);
});

test('after a lost answer it synchronises, and writes the page anew with its address', async () => {
  const clock = new FakeClock();
  const board = newerBoard();
  const client = await signedOn(board, clock);
  board.heard.length = 0;
  board.fate = (count) => (count === 2 ? 'unheard' : 'fine');
  expect(await settled(clock, client.programPage(0x80, new Uint8Array(128)))).toEqual({ ok: true, value: null });
  expect(board.heard).toEqual(['55400020', '64008046', '3020', '55400020', '64008046']);
});

test('a loader that says no four times is believed', async () => {
  const clock = new FakeClock();
  const board = newerBoard();
  const client = await signedOn(board, clock);
  board.fate = (_, command) => (command === 0x64 ? Uint8Array.of(0x14, 0x11) : 'fine');
  const refused = await settled(clock, client.programPage(0, new Uint8Array(128)));
  expect(refused).toEqual({ ok: false, error: { kind: 'refused', detail: 'answered 1411' } });
  expect(board.heard.filter((message) => message === '64008046')).toHaveLength(4);
});

test('silence and a pulled cable are told apart', async () => {
  const clock = new FakeClock();
  const board = newerBoard();
  const client = await signedOn(board, clock);
  board.fate = () => 'lost';
  expect(await settled(clock, client.signature())).toEqual({ ok: false, error: { kind: 'silent' } });
  board.fate = () => 'unplug';
  const ended = await settled(clock, client.signature());
  expect(ended).toEqual({ ok: false, error: { kind: 'ended', cause: 'The cable was pulled.' } });
});
