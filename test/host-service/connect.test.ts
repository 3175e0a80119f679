import { describe, expect, it } from 'vitest';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { connected, exampleImage, PORT, rig } from './rig.ts';
import { TableBoard, WRITING } from './table-board.ts';

const longer = (text: string): string => text.replace('"green": 18', '"green": 21');
const otherLamp = (text: string): string => text.replace('"pin": "D2"', '"pin": "A5"');

describe('connecting reads what the board runs and writes nothing', () => {
  it.each([
    ['nothing', null, null, 'none', 'none'],
    ['the open layout', exampleImage(), exampleImage(), 'same', 'same'],
    ['the open layout with another time', exampleImage(longer), exampleImage(), 'times', 'same'],
    ['another layout', exampleImage(otherLamp), exampleImage(otherLamp), 'other', 'other'],
  ] as const)('a board that runs %s', async (_, run, kept, running, keeping) => {
    const { outcome, board, real } = await connected((fake) => {
      fake.run = run;
      fake.kept = kept;
    });
    expect(outcome).toEqual({ ok: true, value: board() });
    expect(board()).toMatchObject({ link: 'ready', port: PORT, virtual: false, problem: null, running, kept: keeping });
    expect(real.line.words().filter((word) => WRITING.includes(word))).toEqual([]);
    expect([real.run, real.kept]).toEqual([run, kept]);
  });

  it('shows the dials of the board, not those of the file', async () => {
    const { board } = await connected((fake) => {
      fake.run = exampleImage(longer);
    });
    expect(board().runningDials?.[0]?.[0]).toBe(21_000);
    expect(board().keptDials?.[0]?.[0]).toBe(18_000);
    expect(board().unkept).toBe(true);
  });

  it('tells who is there, why it started, what it shows', async () => {
    const { board, told, logged } = await connected((fake) => {
      fake.row = 2;
      fake.elapsed = 300;
      fake.lit = '0C0C';
      fake.cause = 'brownout';
      fake.held.add(1);
      fake.paused = true;
    });
    expect(board()).toMatchObject({
      who: { chip: 'atmega328p', firmware: '1.1.0', protocol: 1, identity: '0000A001', name: '' },
      supplyMillivolts: 4980,
      resetCause: 'brownout',
      paused: true,
      held: [false, true, false],
      faults: [0, 0, 0],
      task: null,
    });
    expect(told.filter(({ name }) => name === 'live').at(-1)?.data).toEqual({
      board: 'town',
      ms: 5000,
      lit: '0C0C',
      rows: [2, 2, 2].map((row) => ({ row, began: 4700 })),
      glow: null,
    });
    expect(logged().at(-1)).toBe(
      'Connected Town board to /dev/ttyUSB0: ATmega328P, firmware 1.1.0. It ran the open layout.',
    );
  });

  it('goes through its states in order', async () => {
    const { told } = await connected();
    const links = told.flatMap(({ name, data }) => (name === 'board' ? [(data as { link: string }).link] : []));
    expect(links.filter((link, index) => link !== links[index - 1])).toEqual(
      ['off', 'opening', 'greeting', 'ready'].slice(1),
    );
  });

  it('compares anew when another layout is opened, and sends nothing', async () => {
    const { call, board, real } = await connected();
    const heard = real.line.heard.length;
    expect(await call('openText', { name: 'longer.json', text: longer(EXAMPLE.text) })).toMatchObject({ ok: true });
    expect(board()).toMatchObject({ link: 'ready', running: 'times', kept: 'times' });
    await call('openText', { name: 'other.json', text: otherLamp(EXAMPLE.text) });
    expect(board()).toMatchObject({ running: 'other', runningDials: null });
    await call('openExample', {});
    expect(board()).toMatchObject({ running: 'same' });
    expect(real.line.heard.slice(heard).filter(({ word }) => WRITING.includes(word))).toEqual([]);
  });

  it('says when the board found its kept table damaged', async () => {
    const { board } = await connected((fake) => {
      fake.storeFault = true;
    });
    expect(board().problem?.code).toBe('storeDamaged');
  });
});

describe('what can stand in the way', () => {
  const attempt = async (
    there: TableBoard | { kind: 'busy' | 'denied' | 'failed'; group?: string; detail: string } | null,
  ) => {
    const bench = rig();
    if (there) bench.ports.plugged.set(PORT, there);
    const connecting = bench.call('connect', { board: 'town', port: PORT });
    await bench.clock.advance(7000);
    const outcome = await connecting;
    const problem = outcome.ok ? null : outcome.problem;
    return { ...bench, problem };
  };
  const fake = (change: Partial<TableBoard>): TableBoard => Object.assign(new TableBoard(), change);

  it.each([
    ['no board there', null, 'portMissing'],
    ['a port in use', { kind: 'busy', detail: 'Cannot lock port' }, 'portBusy'],
    ['a port of another group', { kind: 'denied', group: 'uucp', detail: 'Permission denied' }, 'portDenied'],
    ['a port that fails', { kind: 'failed', detail: 'Input/output error' }, 'portFailed'],
    ['a board that says nothing', fake({ script: { who: () => null } }), 'noAnswer'],
    ['another chip', fake({ chip: 'atmega2560' }), 'wrongChip'],
    ['an older protocol', fake({ protocol: 0 }), 'protocolOld'],
    ['a newer protocol', fake({ protocol: 2 }), 'protocolNew'],
  ] as const)('%s', async (_, there, code) => {
    const { problem, board, logged, clock } = await attempt(there);
    expect(problem?.code).toBe(code);
    expect(board()).toMatchObject({ link: 'off', problem });
    expect(logged().at(-1)).toBe(`Town board was not connected: ${problem?.what}`);
    // Nobody goes on looking for what never was there.
    const { openings } = (await attempt(there)).ports;
    expect(openings).toBe(1);
    expect(clock.waiting).toBe(0);
  });

  it('names the group of a port that may not be opened', async () => {
    const { problem } = await attempt({ kind: 'denied', group: 'uucp', detail: 'Permission denied' });
    expect(problem?.next).toBe('In a terminal: sudo usermod -aG uucp $USER. Then log out and in again.');
  });

  it('another program on the board', async () => {
    const bench = rig();
    const chatty = new TableBoard();
    chatty.script = {
      who: () => {
        chatty.line.stream.say('Temperature 21.5\n');
        return null;
      },
    };
    bench.ports.plugged.set(PORT, chatty);
    const connecting = bench.call('connect', { board: 'town', port: PORT });
    await bench.clock.advance(7000);
    expect(await connecting).toMatchObject({ ok: false, problem: { code: 'foreignFirmware' } });
  });

  it('a board that needs a second and a half after the port was opened', async () => {
    const bench = rig();
    const slow = new TableBoard();
    slow.script = {
      who: () => (bench.clock.now() < 1500 ? null : ['amberwick', 1, '1.0.0', 1, 'atmega328p', '0000A001', '-', '-']),
    };
    bench.ports.plugged.set(PORT, slow);
    const connecting = bench.call('connect', { board: 'town', port: PORT });
    await bench.clock.advance(2000);
    expect(await connecting).toMatchObject({ ok: true, value: { link: 'ready' } });
  });

  it('a board id that the layout does not have', async () => {
    const { call } = rig();
    expect(await call('connect', { board: 'harbour', port: PORT })).toMatchObject({
      ok: false,
      problem: { code: 'noSuchBoard', what: 'The open layout has no board named "harbour".' },
    });
  });
});

describe('files that are no layouts', () => {
  it('are refused with the reason, and the old one stays open', async () => {
    const { call, told } = rig();
    const outcome = await call('openText', { name: 'broken.json', text: EXAMPLE.text.slice(0, 300) });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'layoutUnreadable' } });
    if (!outcome.ok) expect(outcome.problem.why).toMatch(/^Line \d+, column \d+: /);
    expect(told.some(({ name }) => name === 'document')).toBe(false);
    const scene = await call('look', {});
    expect(scene.ok && scene.value.document.name).toBe('penmarrow.json');
  });

  it('with mistakes open, but cannot be sent', async () => {
    const { call, real } = await connected();
    await call('openText', { name: 'twice.json', text: EXAMPLE.text.replace('"pin": "D3"', '"pin": "D2"') });
    expect(await call('send', { board: 'town' })).toMatchObject({ ok: false, problem: { code: 'layoutWrong' } });
    expect(real.line.words()).not.toContain('begin');
  });
});
