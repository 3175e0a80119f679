import { describe, expect, it } from 'vitest';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import type { BoardState } from '../../shared/workbench/contract.ts';
import { settle } from '../host/fake-clock.ts';
import { connected, exampleImage, PORT, rig } from './rig.ts';
import { TableBoard } from './table-board.ts';

const longer = (text: string): string => text.replace('"green": 18', '"green": 21');

describe('sending', () => {
  it('tells its progress, runs the layout, keeps nothing by itself', async () => {
    const { call, told, real, logged, board } = await connected((fake) => {
      fake.run = null;
      fake.kept = null;
    });
    told.length = 0;
    const outcome = await call('send', { board: 'town' });
    expect(outcome).toMatchObject({ ok: true, value: { running: 'same', kept: 'none', unkept: true, task: null } });
    const done = told.flatMap(({ name, data }) => {
      const task = name === 'board' ? (data as BoardState).task : null;
      return task?.name === 'send' ? [task.done] : [];
    });
    const { length } = exampleImage();
    expect(done).toEqual([...Array.from({ length: Math.ceil(length / 16) }, (_, part) => part * 16), length]);
    expect(real.run).toEqual(exampleImage());
    expect(real.kept).toBeNull();
    expect(logged().at(-1)).toBe('Sent Penmarrow to Town board; it runs and is not kept yet.');
    expect(board().runningDials?.[0]?.[0]).toBe(18_000);
    // Lamps and rows of the new table are told at once.
    expect(told.filter(({ name }) => name === 'live')).toHaveLength(1);
  });

  it('has shape and CRC in the log', async () => {
    const { call, logFile } = await connected();
    await call('send', { board: 'town' });
    const upload = logFile().find(({ kind }) => kind === 'upload');
    expect(upload?.data).toEqual({
      bytes: 205,
      shape: expect.stringMatching(/^[0-9A-F]{4}$/),
      crc: expect.stringMatching(/^[0-9A-F]{4}$/),
    });
  });

  it('can be called off; the old table runs on', async () => {
    const { call, real, board, logged } = await connected((fake) => {
      fake.run = exampleImage(longer);
    });
    let parts = 0;
    const { part } = real.line.replies;
    real.line.replies.part = (request) => {
      parts += 1;
      if (parts === 4) void call('cancelSend', { board: 'town' });
      return part?.(request) ?? null;
    };
    expect(await call('send', { board: 'town' })).toMatchObject({ ok: false, problem: { code: 'cancelled' } });
    expect(real.line.words().at(-1)).toBe('drop');
    expect(parts).toBeLessThan(13);
    expect(board()).toMatchObject({ running: 'times', task: null, problem: null });
    expect(logged().at(-1)).toBe('Sending to Town board was called off.');
  });

  it('carries the reason of a refusal and its cure', async () => {
    const { call, real, board } = await connected();
    real.line.replies.start = () => ({ no: 31 });
    const outcome = await call('send', { board: 'town' });
    const problem = {
      code: 'uploadRefused',
      what: 'Town board did not take the layout: pin used twice.',
      why: 'The board checks every table before it runs it. What ran before runs on.',
      next: 'Give each lamp, input and chain line its own pin.',
      detail: 'code 31',
    };
    expect(outcome).toEqual({ ok: false, problem });
    expect(board()).toMatchObject({ link: 'ready', task: null, problem, running: 'same' });
  });

  it('a layout that is too large is not begun', async () => {
    const { call, real } = await connected();
    const layout = JSON.parse(EXAMPLE.text);
    const [cross] = layout.sites;
    // Each with other times of its own, so that no two share a table.
    layout.sites = Array.from({ length: 7 }, (_, index) => ({
      ...cross,
      id: `cross-${index}`,
      name: `Cross ${index}`,
      amber: 3 + index / 100,
      phases: cross.phases.map((phase: { id: string }, at: number) => ({
        ...phase,
        minGreen: 5 + index,
        lamps: Object.fromEntries(
          ['red', 'amber', 'green'].map((colour, lamp) => [colour, { bit: index * 6 + at * 3 + lamp }]),
        ),
      })),
      heads: [],
      place: undefined,
    }));
    layout.boards[0].chain = { chips: 6, data: 'D2', clock: 'D3', latch: 'D4', enable: 'D5' };
    delete layout.roads;
    const opened = await call('openText', { name: 'large.json', text: JSON.stringify(layout) });
    expect(opened).toMatchObject({ ok: true });
    const outcome = await call('send', { board: 'town' });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'tooLarge' } });
    if (!outcome.ok) expect(outcome.problem.why).toMatch(/^It needs \d{3} bytes; the board has 480\.$/);
    expect(real.line.words()).not.toContain('begin');
  });

  it('one long task at a time', async () => {
    const { call, real, clock } = await connected();
    real.line.replies.keep = () => null;
    const keeping = call('keep', { board: 'town' });
    expect(await call('send', { board: 'town' })).toMatchObject({ ok: false, problem: { code: 'boardBusy' } });
    expect(await call('putBack', { board: 'town' })).toMatchObject({ ok: false, problem: { code: 'boardBusy' } });
    await clock.advance(20_000);
    expect(await keeping).toMatchObject({ ok: false });
  });
});

describe('nudging', () => {
  it('changes the board, shows what is not kept, logs from and to with names', async () => {
    const { call, board, logFile } = await connected();
    expect(await call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 })).toEqual({
      ok: true,
      value: { ms: 20_000 },
    });
    expect(board()).toMatchObject({ running: 'times', kept: 'same', unkept: true });
    expect([board().runningDials?.[0]?.[0], board().keptDials?.[0]?.[0]]).toEqual([20_000, 18_000]);
    expect(logFile().at(-1)).toMatchObject({
      kind: 'nudge',
      board: 'town',
      boardMs: 5000,
      text: 'Changed Market Cross green of Fore Street from 18.0 s to 20.0 s on Town board.',
      data: { site: 0, dial: 0, from: 18_000, to: 20_000 },
    });
  });

  it('a held key sends the first and the newest wish, not all between', async () => {
    const { call, real, clock } = await connected();
    const { dial } = real.line.replies;
    real.line.replies.dial = () => null;
    const turn = (seconds: number) => call('nudge', { board: 'town', site: 0, dial: 0, ms: seconds * 1000 });
    const first = turn(19);
    await settle();
    const calls = [first, ...[20, 21, 22, 23].map(turn)];
    if (dial) real.line.replies.dial = dial;
    await clock.advance(500);
    expect((await Promise.all(calls)).map((outcome) => outcome.ok && outcome.value.ms)).toEqual([
      19_000, 23_000, 23_000, 23_000, 23_000,
    ]);
    const sent = real.line.heard.filter(({ word }) => word === 'dial').map(({ args }) => args[2]);
    // The first line twice: its answer had been lost.
    expect(sent).toEqual(['19000', '19000', '23000']);
  });

  it('outside the limits stays as it was, and says what can be done', async () => {
    const { call, board, logged } = await connected();
    expect(await call('nudge', { board: 'town', site: 0, dial: 0, ms: 500 })).toMatchObject({
      ok: false,
      problem: { code: 'refused', next: 'Choose a time within the limits of the dial.', detail: 'code 4' },
    });
    expect(board().runningDials?.[0]?.[0]).toBe(18_000);
    expect(logged().at(-1)).toBe('Market Cross green of Fore Street stayed: Town board refused: outside limits.');
  });

  it('never reaches a board that runs another layout', async () => {
    const { call, real } = await connected((fake) => {
      fake.run = exampleImage((text) => text.replace('"pin": "D2"', '"pin": "A5"'));
    });
    for (const outcome of [
      await call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 }),
      await call('hold', { board: 'town', site: 0, on: true }),
      await call('step', { board: 'town', site: 0 }),
    ]) {
      expect(outcome).toMatchObject({ ok: false, problem: { code: 'otherTable' } });
    }
    expect(real.line.words()).not.toContain('dial');
  });
});

describe('keeping and putting back', () => {
  it('keeps what runs and names what is new', async () => {
    const { call, real, board, logFile } = await connected();
    await call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
    await call('nudge', { board: 'town', site: 2, dial: 0, ms: 1000 });
    expect(await call('keep', { board: 'town' })).toEqual({ ok: true, value: { keeps: 1 } });
    expect(real.kept).toEqual(real.run);
    expect(board()).toMatchObject({ running: 'times', kept: 'times', unkept: false, keeps: 1 });
    expect(logFile().at(-1)).toMatchObject({
      kind: 'keep',
      text: 'Kept on Town board: Market Cross green of Fore Street 20.0 s, Harbour Crossing lit 1.0 s.',
    });
    await call('keep', { board: 'town' });
    expect(logFile().at(-1)?.text).toBe('Kept on Town board; nothing had changed.');
  });

  it('puts back the kept values', async () => {
    const { call, board, logged } = await connected();
    await call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
    expect(await call('putBack', { board: 'town' })).toMatchObject({ ok: true, value: { running: 'same' } });
    expect(board()).toMatchObject({ running: 'same', unkept: false });
    expect(logged().at(-1)).toBe('Put back on Town board: Market Cross green of Fore Street 18.0 s.');
  });

  it('a refusal of the store is told with its cure', async () => {
    const { call, real } = await connected();
    real.line.replies.keep = () => ({ no: 10 });
    expect(await call('keep', { board: 'town' })).toMatchObject({
      ok: false,
      problem: { code: 'refused', what: 'Town board refused: store failed.' },
    });
  });
});

describe('short commands', () => {
  it.each([
    [['hold', { site: 0, on: true }], 'hold 0 1', 'Held Market Cross at "Fore Street green".'],
    [['hold', { site: 0, on: false }], 'hold 0 0', 'Let Market Cross run on.'],
    [['step', { site: 0 }], 'step 0', 'Stepped Market Cross on from "Fore Street green".'],
    [['again', { site: 1 }], 'again 1', 'Started Chapel Corner from the beginning.'],
    [['again', { site: null }], 'again', 'Started all of Town board from the beginning.'],
    [['pause', { on: true }], 'pause', 'Paused Town board.'],
    [['pause', { on: false }], 'run', 'Ended the pause of Town board.'],
    [['master', { state: 'night' }], 'master night', 'Set Town board to night.'],
  ] as const)('%j is sent as "%s"', async ([name, args], line, text) => {
    const { call, real, logFile, told } = await connected();
    told.length = 0;
    expect(await call(name, { board: 'town', ...args } as never)).toMatchObject({ ok: true });
    const [word = '', ...rest] = line.split(' ');
    expect(real.line.heard.find((request) => request.word === word)?.args).toEqual(rest);
    expect(logFile().at(-1)).toMatchObject({ kind: 'control', text });
    expect(told.map(({ name: event }) => event)).toContain('live');
  });
});

describe('two boards', () => {
  const two = (): string => {
    const layout = JSON.parse(EXAMPLE.text);
    layout.boards.push({ id: 'harbour', name: 'Harbour board', chip: 'atmega328p' });
    layout.sites[2].board = 'harbour';
    return JSON.stringify(layout);
  };

  it('have a virtual board each, and states of their own', async () => {
    const { call, board, units } = rig();
    await call('openText', { name: 'two.json', text: two() });
    const ports = await call('listPorts', {});
    expect(ports.ok && ports.value.map(({ path, label }) => [path, label])).toEqual([
      ['virtual:town', 'Virtual board for Town board'],
      ['virtual:harbour', 'Virtual board for Harbour board'],
    ]);
    for (const id of ['town', 'harbour']) {
      expect(await call('connect', { board: id, port: `virtual:${id}` })).toMatchObject({ ok: true });
    }
    await call('send', { board: 'harbour' });
    expect(board('town')).toMatchObject({ running: 'none', virtual: true, powered: true });
    expect(board('harbour')).toMatchObject({ running: 'same', virtual: true, powered: true });
    await call('power', { board: 'town', on: false });
    expect(board('town')).toMatchObject({ link: 'lost', powered: false, problem: { code: 'powerOff' } });
    expect(board('harbour')).toMatchObject({ link: 'ready', powered: true });
    expect(units.get('harbour')?.powered).toBe(true);
  });

  it('cannot share a port', async () => {
    const { call, ports } = rig();
    ports.plugged.set(PORT, new TableBoard());
    await call('openText', { name: 'two.json', text: two() });
    await call('connect', { board: 'town', port: PORT });
    expect(await call('connect', { board: 'harbour', port: PORT })).toMatchObject({
      ok: false,
      problem: { code: 'portTaken', what: '/dev/ttyUSB0 already belongs to Town board.' },
    });
    const listed = await call('listPorts', {});
    expect(listed.ok && listed.value[0]).toMatchObject({ path: PORT, board: 'town' });
  });

  it('a board that the next layout lacks is let go', async () => {
    const { call, ports } = rig();
    const real = new TableBoard();
    ports.plugged.set(PORT, real);
    await call('openText', { name: 'two.json', text: two() });
    await call('connect', { board: 'harbour', port: PORT });
    await call('openExample', {});
    const scene = await call('look', {});
    expect(scene.ok && scene.value.boards.map((state) => state.board)).toEqual(['town']);
    expect(await call('connect', { board: 'town', port: PORT })).toMatchObject({ ok: true });
    expect(real.lines).toHaveLength(2);
  });
});

describe('the start of the app', () => {
  it('puts the example on a virtual board fresh from the factory and keeps it', async () => {
    const { host, board, logged, units } = rig();
    await host.start();
    expect(board()).toMatchObject({ link: 'ready', running: 'same', kept: 'same', unkept: false });
    expect(units.get('town')?.board.kept).toEqual(exampleImage());
    expect(logged()).toEqual([
      'Amberwick 1.2.3 started.',
      'Opened penmarrow.json.',
      'Connected Town board to the virtual board: ATmega328P, firmware 1.1.0. It ran nothing.',
      'The virtual board was new and empty, so it got the example (Town board).',
      'Sent Penmarrow to Town board; it runs and is not kept yet.',
      'Kept on Town board: the whole layout.',
    ]);
  });

  it('leaves alone what a virtual board has kept', async () => {
    const first = rig();
    await first.host.start();
    await first.call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
    await first.call('keep', { board: 'town' });
    const unit = first.units.get('town');
    await first.call('power', { board: 'town', on: false });
    await first.call('power', { board: 'town', on: true });
    expect(first.board()).toMatchObject({ link: 'ready', running: 'times', kept: 'times' });
    expect(unit?.board.line.words()).not.toContain('begin');
  });

  it('switch and speed are for virtual boards only', async () => {
    const { call } = await connected();
    for (const outcome of [
      await call('power', { board: 'town', on: false }),
      await call('speed', { board: 'town', factor: 10 }),
    ]) {
      expect(outcome).toMatchObject({ ok: false, problem: { code: 'notVirtual' } });
    }
  });
});

describe('the session log', () => {
  it('is numbered without a gap, on the disk, and the same as the panel reads', async () => {
    const { host, call, log, logFile, told } = rig();
    await host.start();
    await call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
    await call('remark', { text: 'Looks right\nfrom the door.' });
    await call('power', { board: 'town', on: false });
    await host.close();
    const entries = logFile();
    expect(entries.map(({ number }) => number)).toEqual(entries.map((_, index) => index + 1));
    expect(entries.at(-1)).toMatchObject({ kind: 'end', text: 'Amberwick was closed.' });
    expect(entries.map(({ text }) => text)).toContain('Looks right\nfrom the door.');
    const heard = told.filter(({ name }) => name === 'log').map(({ data }) => data);
    expect(heard).toEqual(entries);
    expect(await call('readLog', {})).toEqual({ ok: true, value: { name: log.name, text: log.text() } });
    for (const { text } of entries) expect(text).toMatch(/^[A-Z][\s\S]*\.$/);
  });
});
