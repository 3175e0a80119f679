/** Parts of the story: moments, spans, filters, search, what changed since the last keep. */
import { describe, expect, it } from 'vitest';
import { counted, listed, spanText, timesText } from '../../shared/workbench/story/counted.ts';
import {
  countIn,
  EVERYTHING,
  entriesIn,
  type Filter,
  filterStory,
  spokenOf,
} from '../../shared/workbench/story/filter.ts';
import { type Group, groupsOf } from '../../shared/workbench/story/groups.ts';
import { linesOf, readLines } from '../../shared/workbench/story/lines.ts';
import { clockText, dateText, momentMs, UTC, wallOf } from '../../shared/workbench/story/moment.ts';
import { findsEntry, marksIn, searchFor } from '../../shared/workbench/story/search.ts';
import { sinceKeep } from '../../shared/workbench/story/since.ts';
import { storyOf } from '../../shared/workbench/story/story.ts';
import { back, keep, logOf, lost, nudge, type Told } from './build.ts';

describe('moments', () => {
  it('agree with the calendar of the computer over 400 years', () => {
    for (let ms = Date.UTC(1890, 0, 1); ms < Date.UTC(2290, 0, 1); ms += 86_400_000 * 59 + 3_723_000) {
      const at = new Date(ms);
      const wall = wallOf(ms, UTC);
      expect(momentMs(at.toISOString())).toBe(ms);
      expect([wall.year, wall.month, wall.day, wall.hour, wall.minute, wall.second]).toEqual([
        at.getUTCFullYear(),
        at.getUTCMonth() + 1,
        at.getUTCDate(),
        at.getUTCHours(),
        at.getUTCMinutes(),
        at.getUTCSeconds(),
      ]);
    }
  });

  it('may have a zone, a fraction or neither; anything else is none', () => {
    const noon = Date.UTC(2026, 10, 30, 12);
    expect(
      ['2026-11-30T12:00:00Z', '2026-11-30T13:00:00+01:00', '2026-11-30T07:30:00.000-0430', '2026-11-30T12:00'].map(
        momentMs,
      ),
    ).toEqual([noon, noon, noon, noon]);
    expect(['', 'yesterday', '2026-11-30', '12:00'].map(momentMs)).toEqual([null, null, null, null]);
  });

  it('are told by the clock on the wall', () => {
    const midnight = Date.UTC(2026, 10, 30, 23, 30);
    expect(clockText(wallOf(midnight, () => 60))).toBe('00:30');
    expect(dateText(wallOf(midnight, () => 60))).toBe('Tuesday 1 December 2026');
    expect(dateText(wallOf(midnight, UTC))).toBe('Monday 30 November 2026');
    expect(dateText(wallOf(Date.UTC(1969, 11, 31), UTC))).toBe('Wednesday 31 December 1969');
  });
});

it('counts, spans and lists read like English', () => {
  expect([0, 1, 2, 12, 13, 1300].map((count) => counted(count, 'change'))).toEqual([
    'no changes',
    'one change',
    'two changes',
    'twelve changes',
    '13 changes',
    '1,300 changes',
  ]);
  expect([1, 2, 3, 40].map(timesText)).toEqual(['once', 'twice', 'three times', '40 times']);
  expect([0, 1_000, 89_000, 90_000, 5_340_000, 5_400_000, 7_800_000, 172_800_000].map(spanText)).toEqual([
    '0 seconds',
    '1 second',
    '89 seconds',
    '2 minutes',
    '89 minutes',
    '1 hour 30 minutes',
    '2 hours 10 minutes',
    '2 days',
  ]);
  expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c', 'd', 'e']].map((parts) => listed(parts))).toEqual([
    '',
    'a',
    'a and b',
    'a, b, c and 2 more',
  ]);
});

describe('filters', () => {
  const entries = logOf(
    nudge(0, 18, 20),
    nudge(5, 30, 31, { board: 'harbour' }),
    lost(20),
    back(30),
    keep(40),
    [50, 'remark', 'Looks right.'],
    [
      60,
      'problem',
      'The boot loader of Town board did not take it.',
      { board: 'town', frames: ['< 1B | The boot loader refuses with C1.'] },
    ],
    [70, 'firmware', 'Wrote firmware 1.3.0 to Town board and read it back.', { board: 'town' }],
  );
  const story = storyOf(entries, UTC);
  const numbers = (filter: Partial<Filter>) =>
    entriesIn(filterStory(story, { ...EVERYTHING, ...filter })).map(({ number }) => number);
  const only = (...groups: Group[]) => numbers({ groups: new Set(groups) });

  it('show any of the groups that are chosen', () => {
    expect(only()).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(only('times')).toEqual([1, 2]);
    expect(only('keeps', 'notes')).toEqual([5, 6]);
    expect(only('connection')).toEqual([3, 4]);
    expect(only('sending')).toEqual([8]);
  });

  it('count lost connections and what a boot loader refused as trouble', () => {
    expect(only('trouble')).toEqual([3, 4, 7]);
    expect(groupsOf({ number: 1, at: '', kind: 'upload', text: '', frames: ['< 1B'] })).toEqual(['sending', 'trouble']);
    expect(groupsOf({ number: 1, at: '', kind: 'reset', text: '', data: { cause: 'watchdog' } })).toEqual([
      'connection',
      'trouble',
    ]);
    expect(groupsOf({ number: 1, at: '', kind: 'reset', text: '', data: { cause: 'power' } })).toEqual(['connection']);
    expect(groupsOf({ number: 1, at: '', kind: 'later' as never, text: '' })).toEqual(['session']);
  });

  it('go by board, by site and by words, all at once', () => {
    expect(numbers({ board: 'harbour' })).toEqual([2]);
    expect(numbers({ site: 'Market Cross' })).toEqual([1, 2]);
    expect(numbers({ site: 'Market Cross', board: 'town', search: searchFor('fore 20') })).toEqual([1]);
    expect(numbers({ search: searchFor('no such word') })).toEqual([]);
    expect(countIn(filterStory(story, { ...EVERYTHING, board: 'town' }))).toBe(6);
    expect(spokenOf(entries)).toEqual({
      boards: [
        { id: 'town', name: 'Town board' },
        { id: 'harbour', name: 'Harbour board' },
      ],
      sites: ['Market Cross'],
    });
  });
});

describe('search', () => {
  const entry = {
    number: 1,
    at: '',
    kind: 'remark',
    text: 'Café lamp too bright',
    frames: ['> ?07 dial CB73'],
  } as const;

  it('wants all words, in any order, whatever their case and accents', () => {
    expect(['', 'LAMP', 'bright cafe', 'CAFÉ', 'cb73'].map((words) => findsEntry(searchFor(words), entry))).toEqual([
      true,
      true,
      true,
      true,
      true,
    ]);
    expect(['lamp dark', 'lampe'].map((words) => findsEntry(searchFor(words), entry))).toEqual([false, false]);
  });

  it('marks what it found and loses no letter', () => {
    const marked = (text: string, words: string) =>
      marksIn(searchFor(words), text)
        .map(({ text: it, isMark }) => (isMark ? `[${it}]` : it))
        .join('');
    expect(marked('Café lamp too bright, lamp!', 'cafe lamp')).toBe('[Café] [lamp] too bright, [lamp]!');
    expect(marked('Cafe\u0301!', 'cafe')).toBe('[Cafe\u0301]!');
    expect(marked('Fußgänger 🚦 aaa', 'aa ganger')).toBe('Fuß[gänger] 🚦 [aa]a');
    expect(marked('a.c (x', '.c (')).toBe('a[.c] [(]x');
    expect(marked('', 'x')).toBe('');
  });
});

describe('since the last keep', () => {
  it('gives each time from what is kept to what runs, by the log where the board says nothing', () => {
    const entries = logOf(
      nudge(0, 10, 18),
      keep(1),
      nudge(2, 18, 20),
      nudge(3, 20, 22),
      nudge(4, 2, 3, { dial: 1 }),
      nudge(5, 3, 2, { dial: 1 }),
    );
    const since = sinceKeep(entries, 'town', null);
    expect(since.keep?.number).toBe(2);
    expect(since.times).toEqual([
      { name: 'Market Cross green of Fore Street', site: 'Market Cross', from: 18_000, to: 22_000, changes: 2 },
    ]);
  });

  it('goes by what the board itself runs and keeps, where that is known', () => {
    const apart = [
      {
        site: 0,
        dial: 0,
        name: 'Market Cross green of Fore Street',
        siteName: 'Market Cross',
        kept: 17_000,
        running: 22_000,
      },
    ];
    expect(sinceKeep(logOf(nudge(2, 18, 20), nudge(3, 20, 22)), 'town', apart)).toMatchObject({
      keep: null,
      times: [{ from: 17_000, to: 22_000, changes: 2 }],
    });
    expect(sinceKeep(logOf(nudge(2, 18, 20)), 'town', []).times).toEqual([]);
  });

  it('adds a common cycle, which has no place among a site’s dials', () => {
    const group: Told = [
      9,
      'nudge',
      'Changed Street cycle from 60.0 s to 1:04 on Town board.',
      { board: 'town', names: { dial: 'Street cycle' }, data: { site: 128, dial: 0, from: 60_000, to: 64_000 } },
    ];
    expect(sinceKeep(logOf(nudge(2, 18, 20), group), 'town', []).times).toEqual([
      { name: 'Street cycle', site: null, from: 60_000, to: 64_000, changes: 1 },
    ]);
  });

  it('names edits and sends, each board by itself; what was put back is over', () => {
    const entries = logOf(
      [0, 'document', 'Moved Market Cross.'],
      keep(1),
      [2, 'document', 'Opened penmarrow.json.'],
      [3, 'document', 'Moved Market Cross again.'],
      [4, 'upload', 'Sent Penmarrow to Town board; it runs and is not kept yet.', { board: 'town' }],
      nudge(5, 18, 20),
      [6, 'putBack', 'Put back on Town board: Market Cross green of Fore Street 18.0 s.', { board: 'town' }],
      [7, 'limit', 'Let the all-red of Market Cross go down to 0.5 s: the lamps are slow.'],
    );
    const since = sinceKeep(entries, 'town', null);
    expect(since.edits.map(({ number }) => number)).toEqual([4, 8]);
    expect(since.sends.map(({ number }) => number)).toEqual([5]);
    expect(since.times).toEqual([]);
    expect(sinceKeep(entries, 'harbour', null)).toMatchObject({
      keep: null,
      sends: [],
      edits: [{ number: 1 }, { number: 4 }, { number: 8 }],
    });
  });
});

describe('JSON Lines', () => {
  it('come back as they were, with what a later version added', () => {
    const entries = [...logOf(lost(0), [1, 'remark', 'Two\nlines.'])];
    entries.push({ ...(entries[1] as never as object), number: 3, later: { deep: [1] } } as never);
    const { entries: read, unreadable } = readLines(linesOf(entries));
    expect(read).toEqual(entries);
    expect(unreadable).toEqual([]);
  });

  it('name the lines that are none', () => {
    const good = linesOf(logOf([0, 'start', 'Started.']));
    const { entries, unreadable } = readLines(
      `${good}{"number":2,"at":"20\n\nnull\n${good}{"number":"x","at":"","kind":"start","text":""}`,
    );
    expect(entries).toHaveLength(2);
    expect(unreadable).toEqual([2, 3, 4, 6]);
  });
});
