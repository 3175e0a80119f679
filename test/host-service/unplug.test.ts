import { describe, expect, it } from 'vitest';
import type { BoardState, PortInfo } from '../../shared/workbench/contract.ts';
import { settle } from '../host/fake-clock.ts';
import { connected, exampleImage, PORT, type Rig, rig } from './rig.ts';
import { TableBoard, WRITING } from './table-board.ts';

type Bench = Awaited<ReturnType<typeof connected>>;

/** Plugs the board in again, waits until it is found, and gives what was written to it since. */
async function plugIn(bench: Rig & { real: TableBoard }): Promise<string[]> {
  const lines = bench.real.lines.length;
  bench.ports.plugged.set(PORT, bench.real);
  await bench.clock.advance(2000);
  expect(bench.real.lines).toHaveLength(lines + 1);
  return bench.real.line.words();
}

const stale = (words: readonly string[]): string[] => words.filter((word) => WRITING.includes(word));

describe('pulling the plug', () => {
  it('of an idle board is told at once, and the board is found again by itself', async () => {
    const bench = await connected();
    bench.ports.pull(PORT);
    await settle();
    expect(bench.board()).toMatchObject({
      link: 'lost',
      running: 'unknown',
      runningDials: null,
      problem: { code: 'cableOut', what: 'The connection to Town board broke off.' },
    });
    expect(bench.told.at(-1)).not.toMatchObject({ name: 'clock', data: { pace: 1 } });
    expect(bench.told.filter(({ name }) => name === 'clock').at(-1)?.data).toMatchObject({ pace: 0 });
    expect(bench.logged().at(-1)).toMatch(/^The connection to Town board broke off\.$/);
    await bench.clock.advance(5000);
    expect(bench.board()).toMatchObject({ link: 'lost', problem: { code: 'cableOut' } });

    const words = await plugIn(bench);
    expect(words[0]).toBe('who');
    expect(stale(words)).toEqual([]);
    expect(bench.board()).toMatchObject({ link: 'ready', running: 'same', problem: null });
    expect(bench.logged().at(-1)).toBe(
      'Town board came back at /dev/ttyUSB0: ATmega328P, firmware 1.1.0. It ran the open layout.',
    );
  });

  it('while the port is being opened', async () => {
    const bench = { ...rig(), real: new TableBoard() };
    let letIn: () => void = () => {};
    bench.ports.gate = new Promise((resolve) => (letIn = resolve));
    const connecting = bench.call('connect', { board: 'town', port: PORT });
    await settle();
    expect(bench.board().link).toBe('opening');
    letIn();
    expect(await connecting).toMatchObject({ ok: false, problem: { code: 'portMissing' } });
    expect(bench.board().link).toBe('off');
    bench.ports.plugged.set(PORT, bench.real);
    expect(await bench.call('connect', { board: 'town', port: PORT })).toMatchObject({ ok: true });
  });

  it('while it is being greeted', async () => {
    const bench = { ...rig(), real: new TableBoard() };
    bench.real.script = { who: () => null };
    bench.ports.plugged.set(PORT, bench.real);
    const connecting = bench.call('connect', { board: 'town', port: PORT });
    await bench.clock.advance(700);
    expect(bench.board().link).toBe('greeting');
    bench.ports.pull(PORT);
    expect(await connecting).toMatchObject({ ok: false, problem: { code: 'cableOut' } });
    expect(bench.board()).toMatchObject({ link: 'off', problem: { code: 'cableOut' } });
    expect(bench.clock.waiting).toBe(0);
  });

  it('while it is being read', async () => {
    const bench = { ...rig(), real: new TableBoard() };
    bench.real.run = (await connected()).real.run;
    bench.real.script = { read: () => null };
    bench.ports.plugged.set(PORT, bench.real);
    const connecting = bench.call('connect', { board: 'town', port: PORT });
    await bench.clock.advance(100);
    expect(bench.board()).toMatchObject({ link: 'ready', task: { name: 'readBack' } });
    bench.ports.pull(PORT);
    expect(await connecting).toMatchObject({ ok: false, problem: { code: 'cableOut' } });
    expect(bench.board()).toMatchObject({ link: 'lost', task: null });
    bench.real.script = {};
    expect(stale(await plugIn(bench))).toEqual([]);
    expect(bench.board()).toMatchObject({ link: 'ready', running: 'same' });
  });

  const tasks: [string, string, (bench: Bench) => Promise<unknown>][] = [
    ['it is being sent to', 'part', ({ call }) => call('send', { board: 'town' })],
    ['the sent table is being started', 'start', ({ call }) => call('send', { board: 'town' })],
    ['it keeps', 'keep', ({ call }) => call('keep', { board: 'town' })],
    ['it puts back', 'back', ({ call }) => call('putBack', { board: 'town' })],
    ['a dial is turned', 'dial', ({ call }) => call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 })],
    ['a site is stepped', 'step', ({ call }) => call('step', { board: 'town', site: 0 })],
    ['a site is held', 'hold', ({ call }) => call('hold', { board: 'town', site: 0, on: true })],
  ];
  it.each(tasks)('while %s: the call says so, and nothing of it is sent later', async (_, word, work) => {
    const bench = await connected();
    bench.real.line.replies[word] = () => null;
    const [doing, behind] = [work(bench), bench.call('nudge', { board: 'town', site: 1, dial: 0, ms: 9000 })];
    await settle();
    expect(bench.real.line.words()).toContain(word);
    bench.ports.pull(PORT);
    expect(await doing).toMatchObject({ ok: false, problem: { code: 'cableOut' } });
    await behind;
    expect(bench.board()).toMatchObject({ link: 'lost', task: null });
    const meanwhile = await bench.call('nudge', { board: 'town', site: 1, dial: 1, ms: 9000 });
    expect(meanwhile).toMatchObject({ ok: false, problem: { code: 'cableOut' } });

    expect(stale(await plugIn(bench))).toEqual([]);
    await bench.clock.advance(10_000);
    expect(stale(bench.real.line.words())).toEqual([]);
    expect(bench.board()).toMatchObject({ link: 'ready', task: null });
  });

  it('ends holds and pause, and says which', async () => {
    const bench = await connected();
    await bench.call('hold', { board: 'town', site: 0, on: true });
    await bench.call('pause', { board: 'town', on: true });
    expect(bench.board()).toMatchObject({ held: [true, false, false], paused: true });
    bench.ports.pull(PORT);
    await settle();
    expect(bench.board()).toMatchObject({ held: [], paused: false });
    expect(bench.logged().at(-1)).toBe(
      'The connection to Town board broke off. The hold of Market Cross and the pause ended with it.',
    );
    bench.real.powerCut();
    await plugIn(bench);
    expect(bench.board()).toMatchObject({ held: [false, false, false], paused: false });
  });

  it('shows a hold that the board still has when it is back within its five seconds', async () => {
    const bench = await connected();
    await bench.call('hold', { board: 'town', site: 0, on: true });
    bench.ports.pull(PORT);
    await plugIn(bench);
    expect(bench.board().held).toEqual([true, false, false]);
  });

  it('and plugging in another board leaves that one alone', async () => {
    const bench = await connected();
    bench.ports.pull(PORT);
    const other = new TableBoard();
    other.identity = '0000B002';
    bench.ports.plugged.set(PORT, other);
    await bench.clock.advance(2000);
    expect(bench.board()).toMatchObject({
      link: 'lost',
      problem: { code: 'otherBoard', what: 'The board at /dev/ttyUSB0 is not Town board.' },
    });
    expect(bench.logged().at(-1)).toBe('The board at /dev/ttyUSB0 is not Town board.');
    expect(other.line.words()).toEqual(['who']);
    await bench.clock.advance(5000);
    expect(other.lines).toHaveLength(1);
    expect(await bench.call('connect', { board: 'town', port: PORT })).toMatchObject({ ok: true });
  });

  it('and another program takes the port meanwhile: said, and waited for', async () => {
    const bench = await connected();
    bench.ports.pull(PORT);
    bench.ports.plugged.set(PORT, { kind: 'busy', detail: 'Cannot lock port' });
    await bench.clock.advance(1500);
    expect(bench.board()).toMatchObject({ link: 'lost', problem: { code: 'portBusy' } });
    await plugIn(bench);
    expect(bench.board()).toMatchObject({ link: 'ready', problem: null });
  });

  it('and giving it up ends the search', async () => {
    const bench = await connected();
    bench.ports.pull(PORT);
    await bench.call('disconnect', { board: 'town' });
    const { openings } = bench.ports;
    bench.ports.plugged.set(PORT, bench.real);
    await bench.clock.advance(5000);
    expect(bench.ports.openings).toBe(openings);
    expect(bench.board()).toMatchObject({ link: 'off', port: null, problem: null });
    expect(bench.clock.waiting).toBe(0);
  });
});

describe('with the host watching the ports', () => {
  /** The layout's board on a real port, as after a start of the app. */
  async function watching() {
    const bench = rig();
    const real = Object.assign(new TableBoard(), { run: exampleImage(), kept: exampleImage() });
    await bench.host.start();
    bench.ports.plugged.set(PORT, real);
    await bench.clock.advance(600);
    expect(await bench.call('connect', { board: 'town', port: PORT })).toMatchObject({ ok: true });
    return { ...bench, real };
  }

  it('a device that vanishes is told within half a second, though nobody else tells', async () => {
    const bench = await watching();
    bench.ports.vanish(PORT);
    await bench.clock.advance(500);
    expect(bench.board()).toMatchObject({ link: 'lost', quiet: false, problem: { code: 'cableOut' } });
    const ports = bench.told.filter(({ name }) => name === 'ports').at(-1)?.data as readonly PortInfo[];
    expect(ports.map(({ path }) => path)).toEqual(['virtual:town']);
  });

  it('a board that comes back under another name is read again and goes on there', async () => {
    const bench = await watching();
    bench.ports.pull(PORT);
    await bench.clock.advance(2000);
    bench.ports.plugged.set('/dev/ttyUSB4', bench.real);
    await bench.clock.advance(1000);
    expect(bench.board()).toMatchObject({ link: 'ready', port: '/dev/ttyUSB4', running: 'same', problem: null });
    expect(bench.logged().at(-1)).toBe(
      `Town board came back at /dev/ttyUSB4: ATmega328P, firmware ${bench.real.firmware}. It ran the open layout.`,
    );
    expect(stale(bench.real.line.words())).toEqual([]);
  });

  it('silence shows after a second, and goes with the first answer', async () => {
    const bench = await watching();
    const { beat } = bench.real.line.replies;
    bench.real.line.replies.beat = () => null;
    await bench.clock.advance(1600);
    expect(bench.board()).toMatchObject({ link: 'ready', quiet: true });
    Object.assign(bench.real.line.replies, { beat });
    await bench.clock.advance(500);
    expect(bench.board()).toMatchObject({ link: 'ready', quiet: false });
  });

  it('whether the opening started the board anew is told with its state', async () => {
    const bench = await watching();
    await bench.clock.advance(600);
    expect(bench.board().openingResets).toBe(false);
    bench.ports.pull(PORT);
    await bench.clock.advance(2000);
    // As after a reset: its boot loader lets a second and a half pass, then it counts from 0.
    const starts = bench.clock.now() + 1500;
    const who = bench.real.line.replies.who ?? (() => null);
    bench.real.script = { who: (line) => (bench.clock.now() < starts ? null : who(line)) };
    bench.real.ms = 0;
    bench.ports.plugged.set(PORT, bench.real);
    await bench.clock.advance(3000);
    expect(bench.board()).toMatchObject({ link: 'ready', openingResets: true });
  });

  it('nobody asks for ports any more after the end', async () => {
    const bench = await watching();
    await bench.host.close();
    const { looks } = bench.ports;
    await bench.clock.advance(5000);
    expect(bench.ports.looks).toBe(looks);
    expect(bench.clock.waiting).toBe(0);
  });
});

describe('a board that falls silent with the cable in', () => {
  it('is noticed by its missed heartbeat and found again without opening the port anew', async () => {
    const bench = await connected();
    const { line } = bench.real;
    const beat = line.replies.beat;
    const who = line.replies.who;
    Object.assign(line.replies, { beat: () => null, who: () => null });
    await bench.clock.advance(6000);
    expect(bench.board()).toMatchObject({ link: 'lost', problem: { code: 'silent' } });
    await bench.clock.advance(20_000);
    expect(bench.board().link).toBe('lost');
    Object.assign(line.replies, { beat, who });
    await bench.clock.advance(8000);
    expect(bench.board()).toMatchObject({ link: 'ready', running: 'same' });
    // Opening the port would have reset the board and its lamps.
    expect(bench.ports.openings).toBe(1);
    expect(stale(line.words())).toEqual([]);
  });

  it('and thinks that the host is gone: told again, asked again, holds said to have ended', async () => {
    const bench = await connected();
    await bench.call('hold', { board: 'town', site: 2, on: true });
    const before = bench.real.line.heard.length;
    bench.real.held.clear();
    bench.real.line.event('alone', 12_000);
    await settle();
    await settle();
    const words = bench.real.line.heard.slice(before).map(({ word }) => word);
    expect(words.slice(0, 2)).toEqual(['tell', 'snap']);
    expect(bench.board().held).toEqual([false, false, false]);
    expect(bench.logged().at(-1)).toBe(
      'The hold of Harbour Crossing ended: Town board had heard nothing from here for 5 seconds.',
    );
  });
});

describe('a board that starts anew while connected', () => {
  it('is read again, and the log has the cause', async () => {
    const bench = await connected();
    await bench.call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
    expect(bench.board()).toMatchObject({ running: 'times', unkept: true });
    bench.real.powerCut();
    bench.real.cause = 'watchdog';
    bench.real.line.event('hello', 1, 'watchdog', '01');
    await settle();
    await bench.clock.advance(100);
    expect(bench.board()).toMatchObject({ link: 'ready', running: 'same', unkept: false, resetCause: 'watchdog' });
    expect(bench.logged().at(-1)).toBe('Town board started anew: it had hung and ended that by itself.');
  });
});

it('every state told is one of the contract and follows its neighbours', async () => {
  const bench = await connected();
  bench.ports.pull(PORT);
  await plugIn(bench);
  await bench.call('disconnect', { board: 'town' });
  const links = bench.told.flatMap(({ name, data }) => (name === 'board' ? [(data as BoardState).link] : []));
  expect(links.filter((link, index) => link !== links[index - 1])).toEqual([
    'opening',
    'greeting',
    'ready',
    'lost',
    'ready',
    'off',
  ]);
});
