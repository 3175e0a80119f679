/** The logbook: what is shown, found, saved, and what it says about the last keep. */
import { signal } from '@preact/signals';
import { describe, expect, it, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import { dialsApart } from '../../renderer/log/apart.ts';
import { saveLogAs } from '../../renderer/log/saving.ts';
import { sessionFacts, sessionMoment } from '../../renderer/log/session-words.ts';
import { changeWords, storeWords } from '../../renderer/log/since-words.ts';
import { countOf, firstOf, MOST_DRAWN, newer, older, partsFrom, topOf } from '../../renderer/log/window.ts';
import { type Sheet, type Surface, toggle } from '../../renderer/model/surface.ts';
import type { LogEntry } from '../../shared/workbench/contract.ts';
import { UTC } from '../../shared/workbench/story/moment.ts';
import { sinceKeep } from '../../shared/workbench/story/since.ts';
import { storyOf } from '../../shared/workbench/story/story.ts';
import { keep, logOf, nudge, type Told } from '../story/build.ts';
import { openBench } from './example.ts';

function surfaceOf() {
  const saved: { name: string; content: string }[] = [];
  const focused: string[] = [];
  const surface = {
    sheet: signal<Sheet>(null),
    under: signal<Sheet>(null),
    saveFile: (name: string, content: string) => saved.push({ name, content }),
    focus: (id: string) => focused.push(id),
  } as unknown as Surface;
  return { surface, saved, focused };
}

const EARLIER = logOf(
  [0, 'start', 'Amberwick 1.2.3 started.'],
  [60, 'remark', 'The amber looks short.'],
  [7800, 'end', 'Amberwick was closed.'],
);

describe('what is shown', () => {
  it('goes by group, board, site and words, and can be all of it again', async () => {
    const { model } = await openBench();
    await model.nudges.nudge({ board: 'town', site: 0, dial: 0 }, 20_000);
    await model.ask('remark', { text: 'Looks right.' });
    const { logbook } = model;
    const shown = () => logbook.shown.value.flatMap(({ beats }) => beats.map(({ kind }) => kind));
    expect(shown()).toContain('start');
    logbook.toggleGroup('times');
    expect(shown()).toEqual(['nudge']);
    logbook.toggleGroup('notes');
    expect(shown()).toEqual(['nudge', 'remark']);
    logbook.site.value = 'Market Cross';
    expect(shown()).toEqual(['nudge']);
    logbook.words.value = 'no such thing';
    expect(shown()).toEqual([]);
    logbook.showEverything();
    expect(shown()).toContain('start');
  });

  it('goes along with what happens, and a note is shown as it was corrected', async () => {
    const { model } = await openBench();
    await model.ask('remark', { text: 'Shrot.' });
    const note = () => model.logbook.shown.value.flatMap(({ beats }) => beats).find(({ kind }) => kind === 'remark');
    expect(note()?.text).toBe('Shrot.');
    await model.ask('correctRemark', { number: note()?.key ?? 0, text: 'Short.' });
    expect(note()).toMatchObject({ text: 'Short.', more: 'corrected later' });
    expect(note()?.entries.map(({ text }) => text)).toEqual(['Shrot.', 'Short.']);
  });
});

describe('a story of 10,000 entries', () => {
  const entries = logOf(
    ...Array.from(
      { length: 10_000 },
      (_, at): Told => (at % 50 === 49 ? keep(at) : at % 2 === 0 ? [at, 'remark', `Note ${at}.`] : nudge(at, 18, 19)),
    ),
  );
  const story = storyOf(entries, UTC);
  const count = countOf(story);

  it('is drawn in parts of at most 200 sentences, the newest first', () => {
    expect(count).toBe(10_000);
    const parts = partsFrom(story, firstOf(null, count));
    expect(parts.reduce((sum, { beats }) => sum + beats.length, 0)).toBe(MOST_DRAWN);
    expect(parts.at(-1)?.beats.at(-1)?.key).toBe(10_000);
    expect(parts.length).toBeLessThan(10);
  });

  it('leaves none out on the way to its beginning and back to its end', () => {
    const seen = new Set<number>();
    const look = (top: number | null) => {
      for (const { beats } of partsFrom(story, firstOf(top, count))) for (const { key } of beats) seen.add(key);
    };
    let top: number | null = null;
    look(top);
    for (let turn = 0; turn < 100 && firstOf(top, count) > 0; turn++) {
      top = older(top, count);
      look(top);
    }
    expect(seen.size).toBe(10_000);
    for (let turn = 0; turn < 100 && top !== null; turn++) top = newer(top, count);
    expect(top).toBe(null);
  });

  it('can be entered at any chapter', () => {
    const chapter = story[77];
    const [first] = partsFrom(story, firstOf(topOf(story, chapter?.key ?? 0), count));
    expect(first?.chapter.key).toBe(chapter?.key);
    expect(first?.beats[0]?.key).toBe(chapter?.beats[0]?.key);
  });
});

describe('since the last keep', () => {
  it('the board says what it runs and keeps, the log how often it was changed', async () => {
    const { model } = await openBench();
    for (const ms of [19_000, 20_000, 22_000]) await model.nudges.nudge({ board: 'town', site: 0, dial: 0 }, ms);
    const board = model.board('town');
    const sites = model.open.value.boards[0]?.sites ?? [];
    const since = () => sinceKeep(model.log.value, 'town', dialsApart(sites, board.state.value));
    expect(since().times.map(changeWords)).toEqual([
      'Market Cross green of Fore Street: 18.0 s to 22.0 s, 4.0 s longer, in three changes',
    ]);
    await model.ask('keep', { board: 'town' });
    expect(since()).toMatchObject({ times: [], sends: [], edits: [], keep: { kind: 'keep' } });
  });

  it('says why times cannot be compared', () => {
    expect(storeWords({ link: 'ready', kept: 'same', running: 'times' })).toBe(null);
    expect(storeWords({ link: 'off', kept: 'unknown', running: 'unknown' })).toBe(
      'It is not connected, so this is what the log knows.',
    );
    expect(storeWords({ link: 'ready', kept: 'none', running: 'same' })).toBe('It keeps nothing yet.');
    expect(storeWords({ link: 'ready', kept: 'other', running: 'same' })).toMatch(/^It keeps another layout/);
    expect(dialsApart([], { keptDials: null, runningDials: [[1]] })).toBe(null);
  });

  it('a time is longer, shorter, or only known as it runs', () => {
    const change = { name: 'All-red', site: null, changes: 1 };
    expect(changeWords({ ...change, from: 2_000, to: 1_500 })).toBe('All-red: 2.0 s to 1.5 s, 0.5 s shorter');
    expect(changeWords({ ...change, from: null, to: 1_500 })).toBe('All-red: now 1.5 s');
  });
});

describe('saving', () => {
  it('gives a text, a table or lines, of everything or of what is shown', async () => {
    const { model } = await openBench();
    const { surface, saved } = surfaceOf();
    await model.ask('remark', { text: '=Looks right.' });
    for (const format of ['txt', 'csv', 'jsonl'] as const) {
      await saveLogAs(model, surface, format, { opened: null, onlyShown: false });
    }
    model.logbook.toggleGroup('notes');
    await saveLogAs(model, surface, 'jsonl', { opened: null, onlyShown: true });
    await saveLogAs(model, surface, 'txt', { opened: null, onlyShown: true });
    expect(saved.map(({ name }) => name)).toEqual([
      'amberwick-log.txt',
      'amberwick-log.csv',
      'amberwick-log.jsonl',
      'amberwick-log-part.jsonl',
      'amberwick-log-part.txt',
    ]);
    expect(saved[0]?.content).toMatch(/^Session log of Thursday 1 January 2026, Penmarrow\n=+\n/);
    expect(saved[1]?.content).toContain(",'=Looks right.,");
    expect(saved[2]?.content.trim().split('\n')).toHaveLength(model.log.value.length);
    expect(
      saved[3]?.content
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line).text),
    ).toEqual(['=Looks right.']);
    expect(saved[4]?.content).toMatch(/^Session log of Thursday 1 January 2026, Penmarrow \(only notes\)\n/);
    expect(saved[4]?.content).not.toContain('Started Amberwick');
  });

  it('of an earlier session as lines is its file, and its own story as a text', async () => {
    const { model, host } = await openBench();
    const { surface, saved } = surfaceOf();
    host.sessions.files.set('2026-11-30T19-00-00Z.jsonl', EARLIER);
    expect(await model.logbook.open('2026-11-30T19-00-00Z.jsonl')).toBe(null);
    const opened = model.logbook.opened.value;
    await saveLogAs(model, surface, 'jsonl', { opened, onlyShown: false });
    await saveLogAs(model, surface, 'txt', { opened, onlyShown: false });
    expect(saved.map(({ name }) => name)).toEqual(['2026-11-30T19-00-00Z.jsonl', '2026-11-30T19-00-00Z.txt']);
    expect(host.calls.filter(({ name }) => name === 'sessionText')).toHaveLength(1);
    expect(saved[1]?.content).toContain('The amber looks short.');
  });

  test.each([
    ['save-story', 'amberwick-log.txt'],
    ['save-table', 'amberwick-log.csv'],
    ['save-log', 'amberwick-log.jsonl'],
  ])('%s is a command, whatever is read or shown', async (id, name) => {
    const { model, host } = await openBench();
    const { surface, saved } = surfaceOf();
    host.sessions.files.set('2026-11-30T19-00-00Z.jsonl', EARLIER);
    await model.logbook.open('2026-11-30T19-00-00Z.jsonl', 'nothing');
    await commandById(id).run(model, surface);
    expect(saved.map((it) => it.name)).toEqual([name]);
    expect(saved[0]?.content).toContain('Penmarrow');
  });
});

describe('earlier sessions', () => {
  const many = async (count: number) => {
    const bench = await openBench();
    for (let at = 0; at < count; at++) {
      const name = `2026-11-30T19-00-00Z-${count - at}.jsonl`;
      bench.host.sessions.files.set(name, at === 7 ? null : EARLIER);
    }
    return { ...bench, earlier: bench.model.logbook.earlier };
  };

  it('are listed fifty at a time', async () => {
    const { earlier } = await many(120);
    await earlier.read();
    expect([earlier.list.value?.length, earlier.total.value, earlier.rest.value]).toEqual([50, 120, true]);
    await earlier.more();
    await Promise.all([earlier.more(), earlier.more()]);
    expect([earlier.list.value?.length, earlier.rest.value]).toEqual([120, false]);
    expect(new Set(earlier.list.value?.map(({ name }) => name)).size).toBe(120);
    await earlier.more();
    expect(earlier.list.value).toHaveLength(120);
  });

  it('are searched part by part, with what could not be read named', async () => {
    const { earlier, host } = await many(60);
    await earlier.read();
    await earlier.find('amber SHORT');
    expect(earlier.search.value).toMatchObject({
      looked: 60,
      state: 'done',
      unreadable: ['2026-11-30T19-00-00Z-53.jsonl'],
    });
    expect(earlier.search.value?.found).toHaveLength(59);
    expect(host.calls.filter(({ name }) => name === 'searchSessions')).toHaveLength(3);
  });

  it('a search can be stopped; what was found stays, and nothing more is asked', async () => {
    const { earlier, host, settle } = await many(200);
    await earlier.read();
    host.stall = 'searchSessions';
    const running = earlier.find('amber short');
    await settle();
    expect(earlier.search.value?.state).toBe('running');
    earlier.stop();
    host.release();
    await running;
    expect(earlier.search.value).toMatchObject({ state: 'stopped', looked: 0 });
    expect(host.calls.filter(({ name }) => name === 'searchSessions')).toHaveLength(1);
  });

  it('of two searches the later one counts', async () => {
    const { earlier, host } = await many(30);
    host.stall = 'searchSessions';
    const first = earlier.find('amber');
    const second = earlier.find('no such word');
    host.release();
    await Promise.all([first, second]);
    expect(earlier.search.value).toMatchObject({ words: 'no such word', found: [], state: 'done' });
  });

  it('one that cannot be read says so, and what was read before stays', async () => {
    const { model } = await many(8);
    const name = '2026-11-30T19-00-00Z-1.jsonl';
    expect(await model.logbook.open(name)).toMatch(/^This session cannot be read\. /);
    expect(model.logbook.opened.value).toBe(null);
  });

  it('opened by a search is shown with the words in it, and leaving it shows everything again', async () => {
    const { model } = await many(1);
    model.logbook.toggleGroup('keeps');
    await model.logbook.open('2026-11-30T19-00-00Z-1.jsonl', 'short');
    expect(model.logbook.shown.value.flatMap(({ beats }) => beats.map(({ text }) => text))).toEqual([
      'The amber looks short.',
    ]);
    model.logbook.show('now');
    expect(model.logbook.words.value).toBe('');
    expect(model.logbook.entries.value).toBe(model.log.value);
  });

  it('are told in a line each', () => {
    const session = {
      name: 'a.jsonl',
      from: '2026-11-30T19:00:00Z',
      to: '2026-11-30T21:10:00Z',
      entries: 48,
      layouts: ['penmarrow'],
      ended: true,
      unreadable: 0,
      problem: null,
    };
    expect(sessionMoment(session.from, session.name, UTC)).toBe('Monday 30 November 2026, 19:00');
    expect(sessionMoment('', 'a.jsonl', UTC)).toBe('a.jsonl');
    expect(sessionFacts(session)).toBe('2 hours 10 minutes, 48 entries, penmarrow');
    expect(sessionFacts({ ...session, ended: false, unreadable: 1, layouts: [] })).toBe(
      '2 hours 10 minutes, 48 entries, not closed, one line damaged',
    );
    expect(sessionFacts({ ...session, problem: 'It is no file.' })).toBe('Cannot be read. It is no file.');
    expect(sessionFacts({ ...session, from: '', to: '', entries: 0 })).toBe('Nothing was written into it.');
  });
});

describe('commands', () => {
  const run = async (id: string) => {
    const { model } = await openBench();
    const { surface, focused } = surfaceOf();
    await commandById(id).run(model, surface);
    return { model, surface, focused };
  };

  it('open the logbook where it is wanted', async () => {
    expect((await run('logbook')).surface.sheet.value).toBe('logbook');
    const since = await run('since-keep');
    expect([since.surface.sheet.value, since.model.logbook.since.value, since.focused]).toEqual([
      'logbook',
      true,
      ['since-keep'],
    ]);
    const photo = await run('attach-photo');
    expect([photo.model.logbook.part.value, photo.focused]).toEqual(['photo', ['photo-path']]);
    const earlier = await run('earlier-sessions');
    expect([earlier.model.logbook.tab.value, earlier.focused]).toEqual(['earlier', ['search-all']]);
  });

  it('write a note in the logbook when that is open, else at the desk', async () => {
    const { model } = await openBench();
    const { surface, focused } = surfaceOf();
    await commandById('remark').run(model, surface);
    expect([model.preferences.distance.value, focused]).toEqual(['desk', ['remark']]);
    model.preferences.distance.value = 'layout';
    toggle(surface, 'logbook');
    await commandById('remark').run(model, surface);
    expect([model.preferences.distance.value, model.logbook.part.value, focused.at(-1)]).toEqual([
      'layout',
      'note',
      'note',
    ]);
  });

  it('the logbook is opened for this session, whatever was read in it before', async () => {
    const { model, host } = await openBench();
    const { surface } = surfaceOf();
    const entries: LogEntry[] = EARLIER;
    host.sessions.files.set('2026-11-30T19-00-00Z.jsonl', entries);
    await model.logbook.open('2026-11-30T19-00-00Z.jsonl');
    await commandById('logbook').run(model, surface);
    expect([model.logbook.opened.value, model.logbook.tab.value]).toEqual([null, 'now']);
  });
});
