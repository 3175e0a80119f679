import { describe, expect, it } from 'vitest';
import type { EarlierKeep } from '../../shared/workbench/contract.ts';
import { connected, exampleImage, PORT } from './rig.ts';
import { TableBoard } from './table-board.ts';

const AT = { board: 'town' };
const GREEN = 'Market Cross green of Fore Street';

async function keptTwice() {
  const bench = await connected();
  const { call } = bench;
  for (const ms of [20_000, 22_000]) {
    await bench.clock.advance(60_000);
    await call('nudge', { ...AT, site: 0, dial: 0, ms });
    await call('keep', AT);
  }
  const list = async (): Promise<readonly EarlierKeep[]> => {
    const outcome = await call('earlierKeeps', AT);
    return outcome.ok ? outcome.value : [];
  };
  return { ...bench, list };
}

describe('earlier keeps', () => {
  it('are listed with their moment, and with what is another now', async () => {
    const { list } = await keptTwice();
    const [now, before, first] = await list();
    expect(now).toMatchObject({ isNow: true, layout: 'Penmarrow', match: 'times', changes: [] });
    expect(before).toMatchObject({ isNow: false, changes: [{ name: GREEN, was: 20_000, now: 22_000 }] });
    expect(first).toMatchObject({ isNow: false, match: 'same', changes: [{ name: GREEN, was: 18_000, now: 22_000 }] });
    expect(before?.crc).toMatch(/^[0-9A-F]{4}$/);
    expect(Date.parse(before?.at ?? '')).toBeLessThan(Date.parse(now?.at ?? ''));
  });

  it('one is sent and kept in one step, and choosing another undoes it', async () => {
    const { call, list, real, board, logged } = await keptTwice();
    const { at = '', crc = '' } = (await list())[2] ?? {};
    const outcome = await call('putBackKept', { ...AT, at, crc });
    expect(outcome).toMatchObject({ ok: true, value: { running: 'same', kept: 'same', unkept: false, task: null } });
    expect(real.kept).toEqual(exampleImage());
    expect(real.run).toEqual(exampleImage());
    expect(logged().at(-1)).toMatch(
      /^Put back and kept on Town board what it kept on \d{4}-\d\d-\d\d: Market Cross green of Fore Street 18\.0 s\.$/,
    );
    const undo = (await list()).find(({ changes }) => changes?.[0]?.was === 22_000);
    await call('putBackKept', { ...AT, at: undo?.at ?? '', crc: undo?.crc ?? '' });
    expect(board().keptDials?.[0]?.[0]).toBe(22_000);
    // Kept twice, it is there twice; the board starts with one of them.
    expect((await list()).filter(({ isNow }) => isNow)).toHaveLength(1);
  });

  it('also the table of another layout can be put back', async () => {
    const other = exampleImage((text) => text.replace('"pin": "D2"', '"pin": "A5"'));
    const { call, real, board } = await connected((fake) => {
      fake.run = other;
      fake.kept = other;
    });
    await call('send', AT);
    await call('keep', AT);
    const outcome = await call('earlierKeeps', AT);
    const copy = outcome.ok ? outcome.value[1] : undefined;
    expect(copy).toMatchObject({ match: 'other', layout: '', changes: null });
    await call('putBackKept', { ...AT, at: copy?.at ?? '', crc: copy?.crc ?? '' });
    expect(real.kept).toEqual(other);
    expect(board().running).toBe('other');
  });

  it('one that is there no more is not guessed at', async () => {
    const { call, real } = await keptTwice();
    const outcome = await call('putBackKept', { ...AT, at: '2020-01-01T00:00:00.000Z', crc: 'FFFF' });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'keepGone' } });
    expect(real.line.words()).not.toContain('begin');
  });

  it('a refused table leaves what is kept', async () => {
    const { call, list, real, board } = await keptTwice();
    const { at = '', crc = '' } = (await list())[2] ?? {};
    const { kept } = real;
    real.line.replies.start = () => ({ no: 31 });
    expect(await call('putBackKept', { ...AT, at, crc })).toMatchObject({ ok: false });
    expect(real.kept).toEqual(kept);
    expect(board()).toMatchObject({ task: null, problem: { code: 'uploadRefused' } });
  });

  it('of a virtual board never take the place of what a real one kept', async () => {
    const { call, ports, list } = await keptTwice();
    await call('disconnect', AT);
    await call('connect', { ...AT, port: 'virtual:town' });
    await call('send', AT);
    await call('keep', AT);
    expect(await list()).toHaveLength(1);
    await call('disconnect', AT);
    await call('connect', { ...AT, port: PORT });
    expect(ports.plugged.get(PORT)).toBeInstanceOf(TableBoard);
    expect(await list()).toHaveLength(3);
  });
});

describe('wear', () => {
  it('counts keeps and tables sent', async () => {
    const { board, call } = await keptTwice();
    expect(board().wear).toEqual({ keeps: 2, sends: 0, madeFor: 100_000, worn: false });
    await call('send', AT);
    expect(board().wear).toMatchObject({ keeps: 2, sends: 1 });
  });

  it('is told at four fifths of what the memory is made for', async () => {
    const { board, call, real, logged } = await connected((fake) => {
      fake.keeps = 30_000;
    });
    expect(board().problem).toBeNull();
    for (const keeps of [60_000, 80_000 - 65_536]) {
      await call('disconnect', AT);
      real.keeps = keeps;
      await call('connect', { ...AT, port: PORT });
    }
    expect(board()).toMatchObject({ wear: { keeps: 80_000, worn: true }, problem: { code: 'memoryWorn' } });
    expect(logged().at(-1)).toMatch(/written nearly as often as it is made for/);
  });
});
