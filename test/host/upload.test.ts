import { describe, expect, test } from 'vitest';
import { readBack } from '../../electron/host/readback.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { toHex } from '../../shared/link/fields.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { FakeBoard } from './fake-board.ts';
import { FakeClock } from './fake-clock.ts';
import { drop, garble } from './fake-stream.ts';

const image = Uint8Array.from({ length: 40 }, (_, index) => index * 3);

function connected() {
  const board = new FakeBoard();
  const clock = new FakeClock();
  return { board, clock, session: new BoardSession(board.stream, { clock }) };
}

describe('upload', () => {
  test('begins with length and CRC, sends 16 bytes a part, starts, and tells how far it is', async () => {
    const { board, session } = connected();
    const progress: number[][] = [];
    const done = await upload(session, image, { onProgress: (...step) => progress.push(step) });
    expect(done).toEqual({ ok: true, value: 0xabcd });
    expect(board.heard.map(({ word, args }) => [word, args[0]])).toEqual([
      ['begin', '40'],
      ['part', '0'],
      ['part', '16'],
      ['part', '32'],
      ['start', undefined],
    ]);
    expect(board.heard[0]?.args[1]).toBe(toHex([imageCrc(image) >> 8, imageCrc(image) & 0xff]));
    expect(board.staged).toEqual(image);
    expect(progress).toEqual([
      [0, 40],
      [16, 40],
      [32, 40],
      [40, 40],
    ]);
  });

  test('goes on where lines are lost or garbled both ways', async () => {
    const { board, clock, session } = connected();
    let writes = 0;
    board.stream.toBoard = (bytes) => (writes++ % 3 === 1 ? drop(bytes) : [bytes]);
    let answers = 0;
    board.stream.toHost = (bytes) => (answers++ % 3 === 1 ? garble(bytes) : [bytes]);
    const done = upload(session, image);
    await clock.advance(20_000);
    expect(await done).toEqual({ ok: true, value: 0xabcd });
    expect(board.staged).toEqual(image);
  });

  test('begins again when the board lost the upload meanwhile', async () => {
    const { board, session } = connected();
    let starts = 0;
    board.replies.start = () => (++starts === 1 ? { no: 9 } : ['ABCD']);
    expect(await upload(session, image)).toEqual({ ok: true, value: 0xabcd });
    expect(board.words().filter((word) => word === 'begin').length).toBe(2);
  });

  test('gives up after three rounds with the reason of the board', async () => {
    const { board, session } = connected();
    board.replies.part = () => ({ no: 7 });
    const done = await upload(session, image);
    expect(!done.ok && done.error).toMatchObject({ kind: 'refused', code: 7 });
    expect(board.words()).toEqual(['begin', 'part', 'begin', 'part', 'begin', 'part']);
  });

  test('a refused image is not sent again', async () => {
    const { board, session } = connected();
    board.replies.start = () => ({ no: 29 });
    const done = await upload(session, image);
    expect(!done.ok && done.error).toMatchObject({ kind: 'refused', code: 29 });
    expect(board.words().filter((word) => word === 'start').length).toBe(1);
  });

  test('cancelling drops what is staged', async () => {
    const { board, session } = connected();
    const cancel = new AbortController();
    const done = await upload(session, image, {
      signal: cancel.signal,
      onProgress: (sent) => {
        if (sent === 16) cancel.abort();
      },
    });
    expect(done).toEqual({ ok: false, error: { kind: 'cancelled' } });
    expect(board.words()).toEqual(['begin', 'part', 'drop']);
  });
});

describe('read back', () => {
  /** Answers sum and read from these bytes. */
  function holding(board: FakeBoard, bytes: Uint8Array, crc = imageCrc(bytes)) {
    board.replies.sum = () => [bytes.length, toHex([crc >> 8, crc & 0xff]), '1234'];
    board.replies.read = ({ args }) => [Number(args[1]), toHex(bytes.subarray(Number(args[1]), Number(args[1]) + 32))];
  }

  test('reads all bytes and compares the sum', async () => {
    const { board, session } = connected();
    holding(board, image);
    expect(await readBack(session, 'run')).toEqual({ ok: true, value: { bytes: image, crc: imageCrc(image) } });
    expect(board.words()).toEqual(['sum', 'read', 'read']);
  });

  test('a board without a table has nothing to read', async () => {
    const { board, session } = connected();
    board.replies.sum = () => ({ no: 5 });
    expect(await readBack(session, 'kept')).toEqual({ ok: true, value: null });
  });

  test('a dial turned meanwhile makes it read once more', async () => {
    const { board, session } = connected();
    holding(board, image);
    let sums = 0;
    const told = board.replies.sum;
    board.replies.sum = (request) => (++sums === 1 ? [40, '0000', '1234'] : (told?.(request) ?? null));
    expect((await readBack(session, 'run')).ok).toBe(true);
    expect(sums).toBe(2);
  });

  test('a sum that never fits is told', async () => {
    const { board, session } = connected();
    holding(board, image, imageCrc(image) ^ 1);
    const read = await readBack(session, 'run');
    expect(!read.ok && read.error).toEqual({ kind: 'misunderstood', what: 'sum of run differs' });
  });
});
