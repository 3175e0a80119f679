/** How lost boards find their way back, at the level of links: several of them, and ports that come and go. */
import { describe, expect, it } from 'vitest';
import { BoardLink } from '../../electron/host/service/board-link.ts';
import { Neighbours } from '../../electron/host/service/neighbours.ts';
import type { Problem } from '../../shared/workbench/contract.ts';
import { FakeClock, settle } from '../host/fake-clock.ts';
import { FakePorts } from './rig.ts';
import { TableBoard } from './table-board.ts';

const USB = (number: number): string => `/dev/ttyUSB${number}`;

function boardNamed(identity: string, change: Partial<TableBoard> = {}): TableBoard {
  return Object.assign(new TableBoard(), { identity }, change);
}

/** Two boards of a layout and what they see. */
function bench() {
  const clock = new FakeClock();
  const ports = new FakePorts();
  let changes = 0;
  const neighbours = new Neighbours({ clock, serial: ports, changed: () => (changes += 1) });
  const link = (name: string) => {
    const said: string[] = [];
    const made: BoardLink = new BoardLink({
      clock,
      open: (port) => ports.open(port),
      wanted: () => ({ chip: 'atmega328p', name }),
      onReady: async (_session, who, isBack) => {
        said.push(`${isBack ? 'back' : 'there'} ${who.identity} ${made.port}`);
      },
      onLost: (problem: Problem) => said.push(`lost ${problem.code}`),
      explainLoss: () => null,
      onGivenUp: (problem: Problem) => said.push(problem.code),
      changed: () => {},
      neighbours,
    });
    return Object.assign(made, { said });
  };
  neighbours.start();
  return { clock, ports, neighbours, town: link('Town'), harbour: link('Harbour'), changes: () => changes };
}

/** Both connected, at ports 0 and 1. */
async function both(one = boardNamed('0000A001'), two = boardNamed('0000B002')) {
  const all = bench();
  all.ports.plugged.set(USB(0), one);
  all.ports.plugged.set(USB(1), two);
  await all.clock.advance(100);
  expect(await all.town.connect(USB(0))).toBe(null);
  expect(await all.harbour.connect(USB(1))).toBe(null);
  await all.clock.advance(2000);
  return { ...all, one, two };
}

describe('a board that comes back', () => {
  it('under another name is found there', async () => {
    const { town, ports, clock, one } = await both();
    ports.pull(USB(0));
    await clock.advance(3000);
    expect(town.state).toBe('lost');
    ports.plugged.set(USB(5), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(5), problem: null });
    expect(town.said).toEqual(['there 0000A001 /dev/ttyUSB0', 'lost cableOut', 'back 0000A001 /dev/ttyUSB5']);
  });

  it('under another name, out and in again at once', async () => {
    const { town, ports, clock, one } = await both();
    ports.pull(USB(0));
    ports.plugged.set(USB(5), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(5) });
  });

  it('is looked for at the new name from then on', async () => {
    const { town, ports, clock, one } = await both();
    ports.pull(USB(0));
    ports.plugged.set(USB(5), one);
    await clock.advance(1000);
    ports.pull(USB(5));
    await clock.advance(1000);
    ports.plugged.set(USB(5), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(5) });
  });

  it('needs a moment to be in its group: that is waited for and not told', async () => {
    const { town, ports, clock, one } = await both();
    ports.pull(USB(0));
    await clock.advance(900);
    const denied = { kind: 'denied', group: 'uucp', detail: 'Permission denied' } as const;
    ports.plugged.set(USB(0), denied);
    await clock.advance(2000);
    expect(town.problem?.code).toBe('cableOut');
    await clock.advance(2000);
    expect(town.problem?.code).toBe('portDenied');
    ports.plugged.set(USB(0), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', problem: null });
  });
});

describe('what was there before', () => {
  it('is never opened, whatever it is', async () => {
    const { town, ports, clock, neighbours } = bench();
    const foreign = boardNamed('0000F00F');
    ports.plugged.set(USB(0), boardNamed('0000A001'));
    ports.plugged.set(USB(1), foreign);
    await clock.advance(1000);
    await town.connect(USB(0));
    ports.pull(USB(0));
    await clock.advance(60_000);
    expect(ports.opened).not.toContain(USB(1));
    expect(foreign.lines).toEqual([]);
    neighbours.stop();
    await town.disconnect();
    expect(clock.waiting).toBe(0);
  });

  it('and came while the board was connected is not opened either', async () => {
    const { ports, clock } = await both();
    ports.plugged.set(USB(7), boardNamed('0000F00F'));
    await clock.advance(2000);
    ports.pull(USB(0));
    await clock.advance(20_000);
    expect(ports.opened).not.toContain(USB(7));
  });

  it('is not opened when another link has it', async () => {
    const { town, harbour, ports, clock, two } = await both();
    ports.pull(USB(0));
    await clock.advance(3000);
    ports.pull(USB(1));
    await clock.advance(3000);
    ports.plugged.set(USB(1), two);
    await clock.advance(3000);
    expect(harbour).toMatchObject({ state: 'ready', port: USB(1) });
    const opened = ports.opened.filter((path) => path === USB(1)).length;
    await clock.advance(20_000);
    expect(town.state).toBe('lost');
    expect(ports.opened.filter((path) => path === USB(1)).length).toBe(opened);
  });

  it('nor while its firmware is being written', async () => {
    const { town, ports, clock, one, neighbours } = await both();
    ports.pull(USB(0));
    await clock.advance(1000);
    const release = neighbours.reserve(USB(5));
    ports.plugged.set(USB(5), one);
    await clock.advance(10_000);
    expect(ports.opened).not.toContain(USB(5));
    release();
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(5) });
  });
});

describe('another board than the lost one', () => {
  it('at the old port is told once and left alone; the search goes on', async () => {
    const { town, ports, clock, one } = await both();
    const strange = boardNamed('0000C003');
    ports.pull(USB(0));
    ports.plugged.set(USB(0), strange);
    await clock.advance(30_000);
    expect(town).toMatchObject({ state: 'lost', port: USB(0), problem: { code: 'otherBoard' } });
    expect(strange.lines.map((line) => line.words())).toEqual([['who']]);
    expect(town.said.filter((code) => code === 'otherBoard').length).toBe(1);
    ports.plugged.set(USB(3), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(3), problem: null });
  });

  it('at a new port is looked at again only when it is plugged in anew', async () => {
    const { town, ports, clock } = await both();
    ports.pull(USB(0));
    const strange = boardNamed('0000C003');
    ports.plugged.set(USB(3), strange);
    await clock.advance(30_000);
    expect(town.problem?.what).toBe('The board at /dev/ttyUSB3 is not Town.');
    expect(strange.lines.length).toBe(1);
    ports.pull(USB(3));
    await clock.advance(1000);
    ports.plugged.set(USB(3), strange);
    await clock.advance(30_000);
    expect(strange.lines.length).toBe(2);
  });

  it('makes room when the right one is plugged in at the old port', async () => {
    const { town, ports, clock, one } = await both();
    ports.pull(USB(0));
    ports.plugged.set(USB(0), boardNamed('0000C003'));
    await clock.advance(5000);
    ports.pull(USB(0));
    await clock.advance(1000);
    ports.plugged.set(USB(0), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', problem: null });
  });

  it('that says nothing is tried twice and then left alone', async () => {
    const { town, ports, clock, one } = await both();
    ports.pull(USB(0));
    const mute = boardNamed('0000C003', { script: { who: () => null } });
    ports.plugged.set(USB(3), mute);
    await clock.advance(60_000);
    expect(mute.lines.length).toBe(2);
    expect(town.problem?.code).toBe('cableOut');
    ports.plugged.set(USB(4), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(4) });
  });

  it('is given to the person who connects it while it is being tried', async () => {
    const { town, harbour, ports, clock } = await both();
    ports.pull(USB(0));
    ports.plugged.set(USB(3), boardNamed('0000C003', { script: { who: () => null } }));
    await clock.advance(1500);
    expect(town.holds(USB(3))).toBe(true);
    const fresh = boardNamed('0000C003');
    ports.plugged.set(USB(3), fresh);
    expect(await harbour.connect(USB(3))).toBe(null);
    await clock.advance(20_000);
    expect(harbour).toMatchObject({ state: 'ready', port: USB(3) });
    expect(fresh.lines.length).toBe(1);
    expect(town.state).toBe('lost');
  });
});

describe('boards without identity', () => {
  it('are taken for the lost one at its old port, but nowhere else', async () => {
    const { town, ports, clock, one } = await both(boardNamed('00000000'));
    ports.pull(USB(0));
    const elsewhere = boardNamed('00000000');
    ports.plugged.set(USB(3), elsewhere);
    await clock.advance(10_000);
    expect(town).toMatchObject({ state: 'lost', problem: { code: 'otherBoard' } });
    ports.plugged.set(USB(0), one);
    await clock.advance(1000);
    expect(town).toMatchObject({ state: 'ready', port: USB(0) });
  });

  it('are not taken for one that has one', async () => {
    const { town, ports, clock } = await both();
    ports.pull(USB(0));
    ports.plugged.set(USB(0), boardNamed('00000000'));
    await clock.advance(10_000);
    expect(town).toMatchObject({ state: 'lost', problem: { code: 'otherBoard' } });
  });
});

describe('a hub with two boards is pulled out', () => {
  it.each([
    ['as they were', 0, 1],
    ['with their names swapped', 1, 0],
    ['the first one under a new name', 2, 1],
    ['one under the other one’s name, the other under a new one', 1, 2],
    ['both under new names', 3, 2],
  ])('and they come back each to its own link, %s', async (_, first, second) => {
    const { town, harbour, ports, clock, one, two } = await both();
    ports.pull(USB(0));
    ports.pull(USB(1));
    await clock.advance(5000);
    expect([town.state, harbour.state]).toEqual(['lost', 'lost']);
    ports.plugged.set(USB(first), one);
    ports.plugged.set(USB(second), two);
    await clock.advance(3000);
    expect(town).toMatchObject({ state: 'ready', port: USB(first), problem: null });
    expect(harbour).toMatchObject({ state: 'ready', port: USB(second), problem: null });
    expect([town.said.at(-1), harbour.said.at(-1)]).toEqual([
      `back 0000A001 ${USB(first)}`,
      `back 0000B002 ${USB(second)}`,
    ]);
    // Each was opened once more, so each was reset once at most.
    expect([one.lines.length, two.lines.length]).toEqual([2, 2]);
    await clock.advance(20_000);
    expect([town.state, harbour.state]).toEqual(['ready', 'ready']);
  });

  it('and one of them alone comes back at the other one’s port', async () => {
    const { town, harbour, ports, clock, two } = await both();
    ports.pull(USB(0));
    ports.pull(USB(1));
    await clock.advance(5000);
    ports.plugged.set(USB(0), two);
    await clock.advance(3000);
    expect(harbour).toMatchObject({ state: 'ready', port: USB(0) });
    expect(town).toMatchObject({ state: 'lost', problem: { code: 'cableOut' } });
    expect(two.lines.length).toBe(2);
  });

  it('and the swap is noticed although the library tells nothing', async () => {
    const { town, harbour, ports, clock, one, two } = await both();
    ports.vanish(USB(0));
    ports.vanish(USB(1));
    await clock.advance(500);
    expect([town.state, harbour.state]).toEqual(['lost', 'lost']);
    ports.plugged.set(USB(0), two);
    ports.plugged.set(USB(1), one);
    await clock.advance(3000);
    expect([town.port, harbour.port]).toEqual([USB(1), USB(0)]);
    expect([town.state, harbour.state]).toEqual(['ready', 'ready']);
  });
});

describe('a device that vanishes', () => {
  it('ends its connection within half a second, even if nobody else tells', async () => {
    const { town, harbour, ports, clock, changes } = await both();
    ports.vanish(USB(0));
    const before = changes();
    await clock.advance(500);
    expect(town).toMatchObject({ state: 'lost', problem: { code: 'cableOut', detail: 'The device is gone.' } });
    expect(harbour.state).toBe('ready');
    expect(changes()).toBe(before + 1);
  });

  it('while it is greeted ends that', async () => {
    const { town, ports, clock } = bench();
    ports.plugged.set(USB(0), boardNamed('0000A001', { script: { who: () => null } }));
    await clock.advance(100);
    const connecting = town.connect(USB(0));
    await clock.advance(1000);
    ports.vanish(USB(0));
    await clock.advance(500);
    expect(await connecting).toMatchObject({ code: 'cableOut' });
    expect(town.state).toBe('off');
  });
});

describe('whether the opening started the board anew', () => {
  const opened = async (change: (board: TableBoard) => void, wait = 600) => {
    const all = bench();
    const board = boardNamed('0000A001');
    change(board);
    all.ports.plugged.set(USB(0), board);
    await all.clock.advance(100);
    const connecting = all.town.connect(USB(0));
    await settle();
    return { ...all, board, connecting, wait };
  };

  it('is not known before the board has told its time', async () => {
    const { town, connecting, clock } = await opened(() => {});
    await connecting;
    expect(town.openingResets).toBe(null);
    await clock.advance(600);
    expect(town.openingResets).toBe(false);
  });

  it('is seen by a board that has run for less time than its port is open', async () => {
    const { town, connecting, clock, board } = await opened((fake) => {
      fake.script = { who: () => null };
    });
    await clock.advance(1800);
    const { line } = board;
    line.replies.who = () => ['amberwick', 1, '1.0.0', 1, 'atmega328p', '0000A001', '-', '-'];
    board.ms = 400;
    await clock.advance(300);
    await connecting;
    await clock.advance(600);
    expect(town.openingResets).toBe(true);
  });

  it('is told by the board itself', async () => {
    const { town, connecting, clock, board } = await opened((fake) => {
      fake.script = { who: () => null };
    });
    board.line.replies.who = () => ['amberwick', 1, '1.0.0', 1, 'atmega328p', '0000A001', '-', '-'];
    board.line.event('hello', 1, 'reset', '01');
    await clock.advance(100);
    await connecting;
    expect(town.openingResets).toBe(true);
  });

  it('stays known while the port stays open', async () => {
    const { town, connecting, clock, board } = await opened(() => {});
    await connecting;
    await clock.advance(600);
    const { who, beat } = board.line.replies;
    Object.assign(board.line.replies, { who: () => null, beat: () => null });
    await clock.advance(6000);
    expect(town.state).toBe('lost');
    Object.assign(board.line.replies, { who, beat });
    board.ms = 50;
    await clock.advance(8000);
    expect(town).toMatchObject({ state: 'ready', openingResets: false });
    expect(board.lines.length).toBe(1);
  });
});

describe('a quiet board', () => {
  it('is quiet after a second, lost only later, and no longer quiet then', async () => {
    const { town, clock, one } = await both();
    Object.assign(one.line.replies, { who: () => null, beat: () => null });
    await clock.advance(1100);
    expect([town.state, town.quiet]).toEqual(['ready', true]);
    await clock.advance(5000);
    expect([town.state, town.quiet]).toEqual(['lost', false]);
    expect(town.problem?.code).toBe('silent');
  });

  it('is not quiet any more when it says anything', async () => {
    const { town, clock, one } = await both();
    const { beat } = one.line.replies;
    one.line.replies.beat = () => null;
    await clock.advance(1500);
    expect(town.quiet).toBe(true);
    one.line.replies.beat = beat ?? (() => null);
    await clock.advance(500);
    expect([town.state, town.quiet]).toEqual(['ready', false]);
  });
});
