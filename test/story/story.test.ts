/** The log of an evening as a story. */
import { describe, expect, it } from 'vitest';
import type { LogEntry } from '../../shared/workbench/contract.ts';
import { UTC } from '../../shared/workbench/story/moment.ts';
import { Storyteller, storyOf } from '../../shared/workbench/story/story.ts';
import { spanOf, wordsOf } from '../../shared/workbench/story/text.ts';
import { back, keep, logOf, lost, nudge, type Told } from './build.ts';

const told = (entries: readonly LogEntry[], zone = UTC): string[] =>
  storyOf(entries, zone).flatMap(({ title, beats }) => [
    `# ${title}`,
    ...beats.map((beat) => `${spanOf(beat)} ${wordsOf(beat)}`),
  ]);

const began: readonly Told[] = [
  [0, 'start', 'Amberwick 1.2.3 started.'],
  [0, 'document', 'Opened penmarrow.json.'],
  [
    2,
    'connection',
    'Connected Town board to ttyUSB0: ATmega328P, firmware 1.3.0. It ran the open layout.',
    {
      board: 'town',
      names: { board: 'Town board' },
      data: { identity: '12345678', running: 'same' },
    },
  ],
];

describe('an evening', () => {
  it('is told in chapters that end with a keep, runs of nudges in one sentence', () => {
    const entries = logOf(
      ...began,
      nudge(60, 18, 19),
      nudge(63, 19, 20),
      nudge(70, 20, 22),
      keep(780),
      [800, 'remark', 'Looks right from the station.'],
      [7_800, 'end', 'Amberwick was closed.'],
    );
    expect(told(entries)).toEqual([
      '# Started and connected Town board',
      '19:00 Amberwick 1.2.3 started.',
      '19:00 Opened penmarrow.json.',
      '19:00 Connected Town board to ttyUSB0: ATmega328P, firmware 1.3.0. It ran the open layout.',
      '# Tuned Market Cross and kept',
      '19:01 Changed Market Cross green of Fore Street from 18.0 s to 22.0 s in three changes.',
      '19:13 Kept on Town board: Market Cross green of Fore Street 22.0 s, 12 minutes after the first change.',
      '19:13 Looks right from the station.',
      '# Closed',
      '21:10 Amberwick was closed, after 2 hours 10 minutes.',
    ]);
  });

  it('keeps every entry, each once and in order within its beat', () => {
    const entries = logOf(
      ...began,
      nudge(60, 18, 19),
      nudge(61, 5, 6, { dial: 1 }),
      nudge(62, 19, 20),
      lost(90),
      back(95),
      keep(99),
    );
    const numbers = storyOf(entries, UTC).flatMap(({ beats }) =>
      beats.map((beat) => beat.entries.map(({ number }) => number)),
    );
    expect(numbers).toEqual([[1], [2], [3], [4, 6], [5], [7, 8], [9]]);
  });

  it('folds two dials that are turned by turns, each with its own count', () => {
    const entries = logOf(nudge(0, 18, 19), nudge(1, 2, 3, { dial: 1 }), nudge(2, 19, 20), nudge(3, 3, 2, { dial: 1 }));
    expect(told(entries).slice(1)).toEqual([
      '19:00 Changed Market Cross green of Fore Street from 18.0 s to 20.0 s in two changes.',
      '19:00 Tried other times for Market Cross all-red and came back to 2.0 s in two changes, trying 2.0 s to 3.0 s.',
    ]);
  });

  it('says how far somebody went beyond where they ended', () => {
    const entries = logOf(nudge(0, 18, 25), nudge(5, 25, 15), nudge(9, 15, 22));
    expect(told(entries)[1]).toBe(
      '19:00 Changed Market Cross green of Fore Street from 18.0 s to 22.0 s in three changes, trying 15.0 s to 25.0 s.',
    );
  });

  it('never takes the dials of two boards for one', () => {
    const entries = logOf(nudge(0, 18, 19), nudge(1, 30, 31, { board: 'harbour' }));
    expect(told(entries)).toHaveLength(3);
  });

  it('reads nudges of logs that have no names', () => {
    const bare = (seconds: number, from: string, to: string): Told => [
      seconds,
      'nudge',
      `Changed Market Cross green of Fore Street from ${from} to ${to} on Town board.`,
      { board: 'town' },
    ];
    expect(told(logOf(bare(0, '18.0 s', '20.0 s'), bare(4, '20.0 s', '1:05')))[1]).toBe(
      '19:00 Changed Market Cross green of Fore Street in two changes on Town board.',
    );
  });
});

describe('a loose cable', () => {
  it('is one sentence, with how long it was away and how often it started anew', () => {
    const anew: Told = [
      24,
      'reset',
      'Town board started anew: its power came on.',
      { board: 'town', data: { cause: 'power' } },
    ];
    expect(told(logOf(lost(0), back(12)))).toEqual([
      '# Lost Town board',
      '19:00 The connection to Town board broke off and came back after 12 seconds.',
    ]);
    expect(told(logOf(lost(0), back(12), lost(20), anew, back(26), lost(40), back(100)))[1]).toBe(
      '19:00-19:01 The connection to Town board broke off three times, for 78 seconds in all, and came back; it started anew once.',
    );
    expect(told(logOf(lost(0), back(12), lost(20)))[1]).toBe(
      '19:00 The connection to Town board broke off twice and is not back.',
    );
  });

  it('leaves the first connection and one that was ended by hand alone', () => {
    const gone: Told = [30, 'connection', 'Disconnected Town board from ttyUSB0.', { board: 'town' }];
    const entries = logOf(back(0), lost(5), back(9), gone, back(60));
    expect(storyOf(entries, UTC)[0]?.beats.map(({ entries: them }) => them.map(({ number }) => number))).toEqual([
      [1],
      [2, 3],
      [4],
      [5],
    ]);
  });

  it('is trouble, and what was said on the line stays with it', () => {
    const [beat] = storyOf(logOf(lost(0), back(12)), UTC)[0]?.beats ?? [];
    expect(beat?.groups).toEqual(['connection', 'trouble']);
    expect(beat?.entries[0]?.frames).toEqual(['19:00:00.000 < closed']);
  });
});

describe('time', () => {
  it('has the date where the evening passes midnight, by the clock on the wall', () => {
    const entries = logOf(
      [0, 'remark', 'Before.'],
      [5 * 3600 - 30, 'remark', 'Just before.'],
      [5 * 3600 + 30, 'remark', 'After.'],
    );
    const days = (zone: (ms: number) => number) =>
      storyOf(entries, zone).flatMap((chapter) => [
        ...(chapter.isNewDay ? [`chapter ${chapter.from.day}`] : []),
        ...chapter.beats.filter(({ isNewDay }) => isNewDay).map(({ from }) => `beat ${from.day}`),
      ]);
    expect(days(UTC)).toEqual(['chapter 30', 'beat 1']);
    expect(days(() => 60)).toEqual(['chapter 30', 'chapter 1']);
  });

  it('survives a clock that goes back and an entry without a time', () => {
    const entries = [...logOf([100, 'remark', 'First.'], [40, 'remark', 'Second.'])];
    entries.push({ ...(entries[1] as LogEntry), number: 3, at: 'never', text: 'Third.' });
    expect(told(entries).slice(1)).toEqual(['19:01 First.', '19:00 Second.', '19:00 Third.']);
  });

  it('says how long a hold, a pause, a check and the dark lasted', () => {
    const about = { board: 'town', names: { board: 'Town board' } };
    const entries = logOf(
      [0, 'control', 'Held Market Cross.', { ...about, data: { site: 0, on: true } }],
      [30, 'control', 'Let Market Cross run on.', { ...about, data: { site: 0, on: false } }],
      [40, 'power', 'Switched the virtual board off (Town board).', { ...about, data: { on: false } }],
      [45, 'power', 'Switched the virtual board on (Town board).', { ...about, data: { on: true } }],
      [50, 'check', 'Began a lamp check on Town board; the others stay dark.', about],
      [170, 'check', 'Ended the lamp check on Town board; its sites show again.', about],
    );
    expect(told(entries).filter((line) => line.includes('after'))).toEqual([
      '19:00 Let Market Cross run on, after 30 seconds.',
      '19:00 Switched the virtual board on (Town board), after 5 seconds.',
      '19:02 Ended the lamp check on Town board; its sites show again, after 2 minutes.',
    ]);
  });
});

describe('notes', () => {
  it('show the newest words where the first stood, with every version', () => {
    const entries = logOf(
      [0, 'remark', 'The amber looks shrot.'],
      [60, 'remark', 'Another.'],
      [90, 'remark', 'The amber looks short.', { data: { corrects: 1 } }],
    );
    const [first, second] = storyOf(entries, UTC)[0]?.beats ?? [];
    expect(first).toMatchObject({ text: 'The amber looks short.', more: 'corrected later' });
    expect(first?.entries.map(({ number }) => number)).toEqual([1, 3]);
    expect(second?.text).toBe('Another.');
  });

  it('may be taken back; what was written can still be read', () => {
    const entries = logOf(
      [0, 'remark', 'Nonsense.'],
      [9, 'remark', 'Taken back.', { data: { corrects: 1, takenBack: true } }],
    );
    expect(storyOf(entries, UTC)[0]?.beats).toMatchObject([
      { text: 'A note that was taken back.', entries: [{ text: 'Nonsense.' }, { number: 2 }] },
    ]);
  });

  it('of a correction of nothing stand by themselves', () => {
    const entries = logOf(
      [0, 'remark', 'Words.', { data: { corrects: 7 } }],
      [1, 'start', 'Started.'],
      [2, 'remark', 'More.', { data: { corrects: 2 } }],
    );
    expect(told(entries).filter((line) => !line.startsWith('#'))).toHaveLength(3);
  });

  it('with a photo keep its path when their words are corrected', () => {
    const entries = logOf(
      [0, 'photo', 'Photo photos/cross.jpg: From the nroth.', { data: { path: 'photos/cross.jpg', from: 'layout' } }],
      [9, 'remark', 'From the north.', { data: { corrects: 1 } }],
    );
    expect(storyOf(entries, UTC)[0]?.beats[0]?.text).toBe('Photo photos/cross.jpg: From the north.');
  });
});

it('tells the same trouble again and again once, with a count', () => {
  const again: Told = [0, 'problem', 'Town board was not connected: the port is in use.', { board: 'town' }];
  expect(told(logOf(again, again, again))[1]).toBe(
    '19:00 Town board was not connected: the port is in use. This happened three times.',
  );
});

it('begins a new chapter after a quarter of an hour, and when what is done changes for good', () => {
  const edit = (at: number): Told => [at, 'document', 'Moved Market Cross.'];
  const titles = (...them: readonly Told[]) => storyOf(logOf(...them), UTC).map(({ title }) => title);
  expect(titles(edit(0), edit(10), edit(1000))).toEqual(['Changed the layout', 'Changed the layout']);
  expect(titles(edit(0), edit(1), edit(2), nudge(3, 18, 19), nudge(4, 19, 20))).toEqual([
    'Changed the layout',
    'Tuned Market Cross',
  ]);
  expect(titles(edit(0), nudge(3, 18, 19), edit(4))).toEqual(['Changed the layout and tuned Market Cross']);
});

it('tells 10,000 entries without losing one', () => {
  const entries = logOf(
    ...Array.from(
      { length: 10_000 },
      (_, at): Told => (at % 100 === 99 ? keep(at) : nudge(at, 18 + (at % 5), 18 + ((at + 1) % 5), { dial: at % 7 })),
    ),
  );
  const story = storyOf(entries, UTC);
  expect(story).toHaveLength(100);
  expect(story.flatMap(({ beats }) => beats.flatMap((beat) => beat.entries))).toHaveLength(10_000);
});

describe('a log that grows', () => {
  const grown = (entries: readonly LogEntry[]) => {
    const teller = new Storyteller(UTC);
    for (let count = 1; count <= entries.length; count++) {
      expect(teller.tell(entries.slice(0, count))).toEqual(storyOf(entries.slice(0, count), UTC));
    }
    return teller;
  };

  it('is told as if it had always been that long, whatever comes', () => {
    const evening: readonly Told[] = [
      ...began,
      nudge(60, 18, 19),
      [70, 'remark', 'Shrot.'],
      keep(780),
      lost(800),
      back(815),
      [820, 'remark', 'Short.', { data: { corrects: 5 } }],
      nudge(3000, 19, 20),
      [3010, 'remark', 'Late.', { data: { corrects: 9 } }],
      [19_000, 'remark', 'Next day.'],
      [19_100, 'remark', 'The next day.', { data: { corrects: 12 } }],
      [19_200, 'remark', 'Too short.', { data: { corrects: 5 } }],
      nudge(19_300, 20, 21),
      keep(19_400),
      [19_500, 'end', 'Amberwick was closed.'],
      [19_600, 'start', 'Amberwick 1.2.3 started.'],
    ];
    grown(logOf(...evening));
  });

  it('keeps what was told before the last chapter', () => {
    const entries = logOf(nudge(0, 18, 19), keep(5), nudge(2000, 19, 20), keep(2005), nudge(4000, 20, 21));
    const teller = new Storyteller(UTC);
    const before = teller.tell(entries.slice(0, 4));
    const after = teller.tell(entries);
    expect(after).toHaveLength(3);
    expect(after[0]).toBe(before[0]);
  });

  it('and another log after it is told from its beginning', () => {
    const teller = new Storyteller(UTC);
    teller.tell(logOf(nudge(0, 18, 19), keep(5), nudge(2000, 19, 20)));
    const other = logOf([0, 'remark', 'Another evening.']);
    expect(teller.tell(other)).toEqual(storyOf(other, UTC));
    expect(teller.tell([])).toEqual([]);
  });
});
