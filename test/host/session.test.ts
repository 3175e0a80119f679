import { describe, expect, test } from 'vitest';
import { BoardSession } from '../../electron/host/session.ts';
import { encodeOk } from '../../shared/link/line.ts';
import { ask } from '../../shared/link/requests.ts';
import { FakeBoard } from './fake-board.ts';
import { FakeClock, settle } from './fake-clock.ts';
import { drop, garble, type Mischief, once, split } from './fake-stream.ts';

function connected() {
  const board = new FakeBoard();
  const clock = new FakeClock();
  const session = new BoardSession(board.stream, { clock });
  return { board, clock, session };
}

describe('greeting', () => {
  test('asks again every 300 ms while the board starts, then knows who it is', async () => {
    const { board, clock, session } = connected();
    board.stream.toBoard = once(drop, drop, drop, drop, drop);
    const greeting = session.greet();
    await clock.advance(1500);
    const answer = await greeting;
    expect(answer.ok && answer.value).toMatchObject({
      protocol: 1,
      firmware: '1.0.0',
      chip: 'atmega328p',
      shape: null,
    });
    expect(board.words()).toEqual(['who']);
    expect(new Set(board.stream.written).size).toBe(1);
    expect(board.stream.written.length).toBe(6);
  });

  test('a board that says hello is asked at once', async () => {
    const { board, clock, session } = connected();
    board.stream.toBoard = once(drop);
    const greeting = session.greet();
    await clock.advance(100);
    board.event('hello', 1, 'reset', '80');
    expect((await greeting).ok).toBe(true);
    expect(clock.now()).toBe(100);
  });

  test('no answer for six seconds is silence', async () => {
    const { board, clock, session } = connected();
    board.stream.toBoard = drop;
    const greeting = session.greet();
    await clock.advance(6000);
    expect(await greeting).toEqual({ ok: false, error: { kind: 'silent' } });
    expect(clock.waiting).toBe(0);
  });

  test('another program that chatters is foreign', async () => {
    const { board, clock, session } = connected();
    board.stream.toBoard = drop;
    const greeting = session.greet();
    for (let second = 0; second < 6; second++) {
      board.stream.say('temperature 21.5\r\n');
      await clock.advance(1000);
    }
    expect(await greeting).toEqual({ ok: false, error: { kind: 'foreign' } });
  });

  test('a cable pulled meanwhile ends it', async () => {
    const { board, session } = connected();
    board.stream.toBoard = drop;
    const greeting = session.greet();
    board.stream.unplug();
    expect(await greeting).toEqual({ ok: false, error: { kind: 'ended', cause: 'The cable was pulled.' } });
  });
});

describe('requests', () => {
  test('a lost request is sent again as the same line and done once', async () => {
    const { board, clock, session } = connected();
    board.replies.dial = () => [18000];
    board.stream.toBoard = once(drop);
    const nudge = session.request(ask.dial(2, 0, 18000));
    await clock.advance(420);
    expect(await nudge).toEqual({ ok: true, value: 18000 });
    expect(board.stream.written[0]).toMatch(/^\?01 dial 2 0 18000 [0-9A-F]{4}\n$/);
    expect(board.stream.written[1]).toBe(board.stream.written[0]);
  });

  test.each([
    ['lost', drop],
    ['garbled', garble],
  ])('a %s answer makes the same line go out again', async (_, mischief) => {
    const { board, clock, session } = connected();
    board.replies.dial = () => [18000];
    board.stream.toHost = once(mischief);
    const nudge = session.request(ask.dial(2, 0, 18000));
    await clock.advance(420);
    expect(await nudge).toEqual({ ok: true, value: 18000 });
    expect(board.words()).toEqual(['dial', 'dial']);
    expect(board.heard[0]?.sequence).toBe(board.heard[1]?.sequence);
  });

  test('an answer in single bytes, between an event and noise, is understood', async () => {
    const { board, session } = connected();
    board.stream.toHost = split;
    board.replies.dial = () => [7500];
    board.event('row', 10, 0, 1);
    board.stream.say('\x00\xff##\n');
    expect(await session.request(ask.dial(0, 1))).toEqual({ ok: true, value: 7500 });
  });

  test('a refusal carries code, reason and cure', async () => {
    const { board, session } = connected();
    board.replies.dial = () => ({ no: 4 });
    const answer = await session.request(ask.dial(2, 0, 1000));
    expect(!answer.ok && answer.error).toMatchObject({ kind: 'refused', code: 4, reason: 'outside limits' });
  });

  test('after five tries the board counts as silent and the next request has its turn', async () => {
    const { board, clock, session } = connected();
    board.stream.toBoard = once(drop, drop, drop, drop, drop);
    const lost = session.request(ask.dial(0, 0));
    const after = session.request(ask.beat());
    await clock.advance(2020);
    expect(await lost).toEqual({ ok: false, error: { kind: 'silent' } });
    expect(await after).toEqual({ ok: true, value: 1234 });
  });

  test('quick requests go one at a time, beside one slow one', async () => {
    const { board, clock, session } = connected();
    for (const word of ['keep', 'dial']) board.replies[word] = () => null;
    void session.request(ask.keep());
    void session.request(ask.back());
    void session.request(ask.dial(0, 0));
    void session.request(ask.dial(0, 1));
    await settle();
    expect(board.words()).toEqual(['keep', 'dial']);
    await clock.advance(300);
    expect(board.words()).toEqual(['keep', 'dial']);
  });

  test('a busy board is asked again with the same line', async () => {
    const { board, clock, session } = connected();
    let asked = 0;
    board.replies.keep = () => (++asked < 3 ? { no: 6 } : [7]);
    const keep = session.request(ask.keep());
    await clock.advance(400);
    expect(await keep).toEqual({ ok: true, value: 7 });
    expect(new Set(board.stream.written).size).toBe(1);
  });

  test('a late second answer is for nobody else', async () => {
    const { board, clock, session } = connected();
    let held = true;
    board.replies.dial = ({ args }) => (held ? null : [Number(args[1]) * 1000]);
    const first = session.request(ask.dial(0, 1));
    await clock.advance(100);
    held = false;
    await clock.advance(400);
    expect(await first).toEqual({ ok: true, value: 1000 });
    const second = session.request(ask.dial(0, 2));
    board.stream.say(board.stream.written[0]?.replace('?', '=') ?? '');
    expect(await second).toEqual({ ok: true, value: 2000 });
  });
});

describe('events and the end', () => {
  test('events are told in order; a missing number is told as a loss', async () => {
    const { board, session } = connected();
    const told: string[] = [];
    session.onEvent((event) => told.push(event.word));
    session.onLost(() => told.push('lost'));
    board.event('row', 1, 0, 0);
    board.event('demand', 2, 0);
    board.loseEvent();
    board.event('row', 3, 0, 1);
    expect(told).toEqual(['row', 'demand', 'lost', 'row']);
  });

  test('a restart is no loss, whatever number it counts from', () => {
    const { board, session } = connected();
    const told: string[] = [];
    session.onEvent((event) => told.push(event.word));
    session.onLost(() => told.push('lost'));
    board.event('row', 1, 0, 0);
    for (let lost = 0; lost < 5; lost++) board.loseEvent();
    board.event('hello', 1, 'watchdog', '01');
    expect(told).toEqual(['row', 'hello']);
  });

  test('a heartbeat goes out every two seconds and tells the board time', async () => {
    const { board, clock, session } = connected();
    const beats: number[][] = [];
    session.onBeat((ms, at) => beats.push([ms, at]));
    await session.greet();
    await clock.advance(6000);
    expect(board.words()).toEqual(['who', 'beat', 'beat', 'beat']);
    expect(beats).toEqual([
      [1234, 2000],
      [1234, 4000],
      [1234, 6000],
    ]);
  });

  test('two heartbeats in a row without an answer end the session', async () => {
    const { board, clock, session } = connected();
    const causes: string[] = [];
    session.onEnd((cause) => causes.push(cause));
    await session.greet();
    board.stream.toBoard = drop;
    await clock.advance(2000 + 2 * 2020 - 1);
    expect(causes).toEqual([]);
    await clock.advance(1);
    expect(causes).toEqual(['The board no longer answers.']);
    expect(clock.waiting).toBe(0);
  });

  test('one heartbeat that is answered only at the fifth asking of the second is no loss', async () => {
    const { board, clock, session } = connected();
    await session.greet();
    board.stream.toBoard = once(...Array<Mischief>(9).fill(drop));
    await clock.advance(2000 + 2 * 2020);
    expect(session.ended).toBe(null);
  });

  test('an interval can be set, and taken back', async () => {
    const { board, clock, session } = connected();
    session.beatEvery(() => 50);
    await clock.advance(200);
    expect(board.words()).toEqual(Array(5).fill('beat'));
    session.beatEvery(null);
    await clock.advance(1000);
    expect(board.words().length).toBe(5);
    expect(clock.waiting).toBe(0);
  });

  test('abandoned, it ends what waits and leaves the stream open for somebody else', async () => {
    const { board, session } = connected();
    board.replies.dial = () => null;
    const waiting = session.request(ask.dial(0, 0));
    session.abandon('Handed over.');
    expect(await waiting).toEqual({ ok: false, error: { kind: 'ended', cause: 'Handed over.' } });
    const next = new BoardSession(board.stream, { clock: new FakeClock() });
    expect(await next.greet()).toMatchObject({ ok: true });
  });

  test('a pulled cable ends everything that waits, once, and nothing is written after', async () => {
    const { board, clock, session } = connected();
    const causes: string[] = [];
    session.onEnd((cause) => causes.push(cause));
    await session.greet();
    board.replies.dial = () => null;
    const waiting = [session.request(ask.dial(0, 0)), session.request(ask.dial(0, 1)), session.request(ask.keep())];
    board.stream.unplug();
    const ended = { ok: false, error: { kind: 'ended', cause: 'The cable was pulled.' } };
    expect(await Promise.all(waiting)).toEqual([ended, ended, ended]);
    const written = board.stream.written.length;
    expect(await session.request(ask.beat())).toEqual(ended);
    await clock.advance(10_000);
    expect(board.stream.written.length).toBe(written);
    expect(causes).toEqual(['The cable was pulled.']);
  });
});

describe('a computer that is busy', () => {
  /** The program gets nothing done for so long; its timers go off late, before the bytes that wait are read. */
  const busyFor = (clock: FakeClock, ms: number) => clock.jump(ms);

  test('does not take an answer that waits for silence', async () => {
    const { board, clock, session } = connected();
    let answer: () => void = () => {};
    board.replies.dial = ({ sequence }) => {
      answer = () => board.stream.say(encodeOk(sequence, [18_000]));
      return null;
    };
    const nudge = session.request(ask.dial(0, 0));
    await settle();
    await busyFor(clock, 10_000);
    answer();
    expect(await nudge).toEqual({ ok: true, value: 18_000 });
  });

  test('does not call the board quiet before it has read what waits', async () => {
    const { board, clock, session, quiet } = watched();
    await session.greet();
    await busyFor(clock, 3000);
    expect(quiet).toEqual([]);
    board.stream.say('=00 late\n');
    await clock.advance(900);
    expect(quiet).toEqual([]);
  });
});

/** A session that watches for silence, as a link does. */
function watched() {
  const board = new FakeBoard();
  const clock = new FakeClock();
  const session = new BoardSession(board.stream, { clock, beatMs: 500, quietMs: 1000 });
  const quiet: [number, boolean][] = [];
  session.onQuiet(() => quiet.push([clock.now(), session.quiet]));
  return { board, clock, session, quiet };
}

describe('silence', () => {
  test('is told a second after the last byte, and ends with the next', async () => {
    const { board, clock, session, quiet } = watched();
    await session.greet();
    await clock.advance(5000);
    expect(quiet).toEqual([]);
    board.stream.toBoard = drop;
    await clock.advance(1999);
    expect(quiet).toEqual([[6000, true]]);
    board.stream.say('.');
    expect(quiet).toEqual([
      [6000, true],
      [6999, false],
    ]);
    expect(session.ended).toBe(null);
  });

  test('of one lost line is nothing', async () => {
    const { board, clock, session, quiet } = watched();
    await session.greet();
    board.stream.toBoard = once(drop);
    await clock.advance(5000);
    expect(quiet).toEqual([]);
  });

  test('comes back after it has ended', async () => {
    const { board, clock, session, quiet } = watched();
    await session.greet();
    board.stream.toBoard = drop;
    await clock.advance(1500);
    board.stream.say('.');
    await clock.advance(1500);
    expect(quiet).toEqual([
      [1000, true],
      [1500, false],
      [2500, true],
    ]);
  });

  test('is over when the session is', async () => {
    const { board, clock, session } = watched();
    await session.greet();
    board.stream.toBoard = drop;
    await clock.advance(1500);
    expect(session.quiet).toBe(true);
    await clock.advance(10_000);
    expect(session.ended).toBe('The board no longer answers.');
    expect(session.quiet).toBe(false);
    expect(clock.waiting).toBe(0);
  });
});
