/** What a board kept before: in words, and put back. */
import { describe, expect, it, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import { changeLines, momentOf, spanOf, wearWords } from '../../renderer/keeps/words.ts';
import { putBackKept } from '../../renderer/model/keeps.ts';
import type { EarlierKeep } from '../../shared/workbench/contract.ts';
import { openBench } from './example.ts';

/** A Wednesday. */
const NOW = new Date(2026, 10, 25, 19, 2);
const on = (month: number, day: number, year = 2026): string => new Date(year, month - 1, day, 18, 30).toISOString();

const copy = (change: Partial<EarlierKeep>): EarlierKeep => ({
  ...{ at: on(11, 18), layout: 'Penmarrow', crc: 'AB04', match: 'times', isNow: false, changes: [] },
  ...change,
});

describe('the moment of a copy', () => {
  it('is told as people tell it', () => {
    const told = [on(11, 25), on(11, 24), on(11, 23), on(11, 22), on(11, 16), on(11, 15), on(12, 24, 2025)].map(
      (at) => `${spanOf(at, NOW)}, ${momentOf(at, NOW)}`,
    );
    expect(told).toEqual([
      'Today, 18:30',
      'Yesterday, 18:30',
      'This week, Monday 18:30',
      'Last week, Sunday 18:30',
      'Last week, Monday 18:30',
      'Before that, 15 Nov 18:30',
      'Before that, 24 Dec 18:30, 2025',
    ]);
  });
});

describe('what is another now', () => {
  it('names each time with both values', () => {
    const changes = [
      { name: 'Market Cross green of Fore Street', was: 18_000, now: 20_000 },
      { name: 'Old Bridge lit', was: 750, now: null },
    ];
    expect(changeLines(copy({ changes }))).toEqual([
      'Market Cross green of Fore Street 18.0 s, now 20.0 s',
      'Old Bridge lit 0.75 s, there no more',
    ]);
  });

  it('counts those that would make the list long', () => {
    const changes = Array.from({ length: 8 }, (_, at) => ({ name: `time ${at}`, was: 1000, now: 2000 }));
    expect(changeLines(copy({ changes }))).toHaveLength(6);
    expect(changeLines(copy({ changes })).at(-1)).toBe('and 3 times more');
  });

  it('says so where nothing is, or nothing is known', () => {
    expect(changeLines(copy({}))).toEqual(['The same times as run now.']);
    expect(changeLines(copy({ isNow: true }))).toEqual(['It runs as kept.']);
    expect(changeLines(copy({ changes: null, match: 'other', layout: '' }))).toEqual(['A table of another layout.']);
  });
});

test('wear is told in plain figures', () => {
  const made = { madeFor: 100_000, worn: false };
  expect(wearWords({ ...made, keeps: 41, sends: 12 })).toBe(
    '41 times, sent 12 tables; the memory is made for 100,000 writes',
  );
  expect(wearWords({ ...made, keeps: 1, sends: 0 })).toBe('once; the memory is made for 100,000 writes');
  expect(wearWords({ ...made, keeps: 81_250, sends: 1 })).toMatch(/^81,250 times, sent one table;/);
});

test('an earlier table runs and is kept in one step; choosing another undoes that', async () => {
  const { model, host } = await openBench();
  const board = model.board('town');
  await model.nudges.nudge({ board: 'town', site: 0, dial: 0 }, 20_000);
  await model.ask('keep', { board: 'town' });
  await model.keeps.read('town');
  const [now, before] = model.keeps.list.value ?? [];
  expect(now?.isNow).toBe(true);
  expect(before?.changes?.map(({ was, now: after }) => [was, after])).toEqual([[18_000, 20_000]]);
  if (before) await putBackKept(model, 'town', before);
  expect(board.state.value).toMatchObject({ unkept: false, running: 'same' });
  expect(board.state.value.keptDials?.[0]?.[0]).toBe(18_000);
  const undo = model.keeps.list.value?.find(({ at }) => at === now?.at);
  if (undo) await putBackKept(model, 'town', undo);
  expect(board.state.value.keptDials?.[0]?.[0]).toBe(20_000);
  expect(host.calls.filter(({ name }) => name === 'putBackKept')).toHaveLength(2);
});

test('the list has a command and a key of its own', () => {
  expect(commandById('earlier-keeps')).toMatchObject({ label: 'Kept before', shortcut: 'Shift+B' });
});
