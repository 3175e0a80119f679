import { describe, expect, it } from 'vitest';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { readChanges } from '../../shared/workbench/changes.ts';
import { settle } from '../host/fake-clock.ts';
import { connected, exampleImage } from './rig.ts';
import { TableBoard } from './table-board.ts';

const AT = { board: 'town' };
const hex = (image: Uint8Array) => imageCrc(image).toString(16).toUpperCase().padStart(4, '0');

describe('several times at once', () => {
  const changes = [
    { site: 0, dial: 0, ms: 22_000 },
    { site: 1, dial: 0, ms: 30_000 },
  ];

  it('are one line of the log, with what they were, by the ids of the layout', async () => {
    const { call, board, logFile } = await connected();
    expect(await call('tune', { ...AT, changes, what: 'Switched to B', who: 'sets' })).toEqual({
      ok: true,
      value: { changes },
    });
    expect(board().runningDials?.map(([first]) => first)).toEqual([22_000, 30_000, 750]);
    const entry = logFile().at(-1);
    expect(entry).toMatchObject({
      kind: 'nudge',
      text: 'Switched to B on Town board: Market Cross green of Fore Street 22.0 s, Chapel Corner green of Fore Street 30.0 s.',
      data: { who: 'sets' },
    });
    expect(entry && readChanges(entry)).toEqual([
      { site: 'market-cross', dial: 'green-1', from: 18_000, to: 22_000 },
      { site: 'chapel-corner', dial: 'green-1', from: 25_000, to: 30_000 },
    ]);
  });

  it('one that is refused is told and left; the others are made', async () => {
    const { call, board, logged } = await connected();
    const wanted = [...changes, { site: 0, dial: 1, ms: 10 }];
    expect(await call('tune', { ...AT, changes: wanted, what: 'Went back', who: 'walk' })).toEqual({
      ok: true,
      value: { changes },
    });
    expect(board().runningDials?.[0]?.[1]).toBe(12_000);
    expect(logged().some((text) => text.startsWith('Market Cross green of Quay Hill stayed:'))).toBe(true);
    const none = await call('tune', { ...AT, changes: wanted.slice(2), what: 'Went back', who: 'walk' });
    expect(none).toMatchObject({ ok: false, problem: { code: 'refused' } });
  });
});

describe('keeping again what was kept', () => {
  it('the board stands still, keeps the times of before, and goes on with those that run', async () => {
    const { call, real, board, logged } = await connected();
    const before = board().keptCrc ?? '';
    expect(before).toBe(hex(exampleImage()));
    await call('nudge', { ...AT, site: 0, dial: 0, ms: 20_000 });
    await call('keep', AT);
    expect(board().keptCrc).not.toBe(before);
    await call('nudge', { ...AT, site: 1, dial: 0, ms: 31_000 });
    const said = real.line.words().length;
    const outcome = await call('keepEarlier', { ...AT, crc: before });
    expect(outcome).toMatchObject({ ok: true, value: { keeps: 2 } });
    const words = real.line.words().slice(said);
    expect(words.filter((word) => word !== 'beat').slice(0, 7)).toEqual([
      'pause',
      'dial',
      'dial',
      'keep',
      'sum',
      'dial',
      'dial',
    ]);
    expect(real.kept).toEqual(exampleImage());
    expect(real.paused).toBe(false);
    expect(board()).toMatchObject({ keptCrc: before, kept: 'same', running: 'times', unkept: true, task: null });
    expect(board().runningDials?.map(([first]) => first)).toEqual([20_000, 31_000, 750]);
    expect(logged().at(-1)).toMatch(
      /^Kept on Town board what it kept before: Market Cross green of Fore Street 18\.0 s\. What runs stayed; the board stood still for [\d.]+ s, and its memory was written once more\.$/,
    );
  });

  it('a pause of the person goes on afterwards', async () => {
    const { call, real, board } = await connected();
    const before = board().keptCrc ?? '';
    await call('nudge', { ...AT, site: 0, dial: 0, ms: 20_000 });
    await call('keep', AT);
    await call('pause', { ...AT, on: true });
    expect(await call('keepEarlier', { ...AT, crc: before })).toMatchObject({ ok: true });
    expect(real.paused).toBe(true);
  });

  it('a failing memory leaves what is kept, and what runs', async () => {
    const { call, real, board } = await connected();
    const before = board().keptCrc ?? '';
    await call('nudge', { ...AT, site: 0, dial: 0, ms: 20_000 });
    await call('keep', AT);
    const after = real.kept;
    real.line.replies.keep = () => ({ no: 10 });
    expect(await call('keepEarlier', { ...AT, crc: before })).toMatchObject({ ok: false });
    expect(real.kept).toEqual(after);
    expect(real.run).toEqual(after);
    expect(real.paused).toBe(false);
    expect(board().task).toBe(null);
  });

  it('what was of another layout, or is nowhere to be found, is said', async () => {
    const other = exampleImage((text) =>
      text
        .replace('"phases": ["A"], "green": 18', '"phases": ["B"], "green": 18')
        .replace('"phases": ["B"], "green": 12', '"phases": ["A"], "green": 12'),
    );
    const { call, board } = await connected((real) => {
      real.kept = other;
    });
    const before = board().keptCrc ?? '';
    expect(before).toBe(hex(other));
    await call('keep', AT);
    expect(await call('keepEarlier', { ...AT, crc: before })).toMatchObject({
      ok: false,
      problem: { code: 'keepOther' },
    });
    expect(await call('keepEarlier', { ...AT, crc: '0000' })).toMatchObject({
      ok: false,
      problem: { code: 'keepGone' },
    });
  });
});

describe('holding what comes next', () => {
  it('waits for the row, holds it, and is done', async () => {
    const { call, real, board, logged } = await connected();
    await call('holdAt', { ...AT, site: 0, rows: [4] });
    expect(board().arms).toEqual([{ site: 0, rows: [4] }]);
    real.line.event('row', 6000, 0, 1);
    real.line.event('row', 6000, 1, 4);
    await settle();
    expect(real.held.size).toBe(0);
    real.line.event('row', 7000, 0, 4);
    await settle();
    expect([...real.held]).toEqual([0]);
    expect(board()).toMatchObject({ arms: [], held: [true, false, false] });
    expect(logged().slice(-2)).toEqual([
      'Will hold Market Cross at its next "Quay Hill green".',
      'Held Market Cross at "Quay Hill green", as asked.',
    ]);
  });

  it('can be called off, and ends with the connection', async () => {
    const { call, real, board } = await connected();
    await call('holdAt', { ...AT, site: 0, rows: [4] });
    await call('holdAt', { ...AT, site: 0, rows: [] });
    expect(board().arms).toEqual([]);
    await call('holdAt', { ...AT, site: 0, rows: [4] });
    await call('disconnect', AT);
    expect(board().arms).toEqual([]);
    expect(real.held.size).toBe(0);
  });
});

describe('starting together', () => {
  it('all boards get the word before any has answered; the log says how near they began', async () => {
    const { call, ports, logged } = await connected();
    const layout = JSON.parse(EXAMPLE.text);
    layout.boards.push({ id: 'harbour', name: 'Harbour board', chip: 'atmega328p' });
    layout.sites[2].board = 'harbour';
    await call('openText', { name: 'two.json', text: JSON.stringify(layout) });
    const other = new TableBoard();
    other.identity = '0000A002';
    ports.plugged.set('/dev/ttyUSB1', other);
    await call('connect', { board: 'harbour', port: '/dev/ttyUSB1' });
    for (const board of ['town', 'harbour']) expect(await call('send', { board })).toMatchObject({ ok: true });
    const outcome = await call('startTogether', {});
    expect(outcome).toMatchObject({ ok: true, value: { boards: ['town', 'harbour'], within: expect.any(Number) } });
    expect(other.line.words()).toContain('again');
    expect(logged().at(-1)).toMatch(
      /^Started all of Town board and Harbour board from the beginning, within \d+ ms of each other\.$/,
    );
    await call('disconnect', { board: 'harbour' });
    expect(await call('startTogether', {})).toEqual({ ok: true, value: { boards: ['town'], within: null } });
  });
});

describe('other limits than the open layout', () => {
  const wider = (text: string): string =>
    text.replace(
      '"place": { "x": 460',
      '"limits": { "green-1": { "greatest": 300, "reason": "x" } }, "place": { "x": 460',
    );

  it('leave the board in hand, and say that sending is needed', async () => {
    const { call, board } = await connected((real) => {
      real.run = exampleImage(wider);
      real.kept = real.run;
    });
    expect(board()).toMatchObject({ running: 'times', kept: 'times', needsSending: true });
    expect(await call('nudge', { ...AT, site: 0, dial: 0, ms: 20_000 })).toMatchObject({ ok: true });
    await call('send', AT);
    expect(board()).toMatchObject({ running: 'same', needsSending: false });
  });

  it('are logged as limits when they are set, and change nothing on the board by themselves', async () => {
    const { call, real, board, logFile } = await connected();
    const look = await call('look', {});
    if (!look.ok) throw new Error('no scene');
    const said = real.line.words().length;
    await call('changeText', { text: wider(look.value.document.text), what: 'Set the limits: a train.', as: 'limit' });
    expect(logFile().at(-1)).toMatchObject({ kind: 'limit', text: 'Set the limits: a train.' });
    expect(board()).toMatchObject({ running: 'times', needsSending: true });
    expect(real.line.words().slice(said)).toEqual([]);
  });
});
