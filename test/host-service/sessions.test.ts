/** The log of this session and of earlier ones, on a real disk. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { notedPhoto } from '../../electron/host/sessions/photo.ts';
import type { LogKind } from '../../shared/workbench/contract.ts';
import { rig } from './rig.ts';

const line = (number: number, at: string, kind: LogKind, text: string, more = {}): string =>
  `${JSON.stringify({ number, at, kind, text, ...more })}\n`;

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'amberwick-sessions-'));
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

const EVENING = [
  line(1, '2026-11-24T19:00:00.000Z', 'start', 'Amberwick 1.2.3 started.'),
  line(2, '2026-11-24T19:00:00.000Z', 'document', 'Opened penmarrow.json.'),
  line(3, '2026-11-24T19:30:00.000Z', 'remark', 'The amber looks short.'),
  line(4, '2026-11-24T21:10:00.000Z', 'end', 'Amberwick was closed.'),
].join('');

function withSessions() {
  const at = folder();
  writeFileSync(join(at, '2026-11-24T19-00-00Z.jsonl'), EVENING);
  const torn = `${line(1, '2026-11-25T18:00:00.000Z', 'start', 'Amberwick 1.2.3 started.')}{"number":2,"at":"20\n${line(3, '2026-11-25T18:20:00.000Z', 'remark', 'Amber again.')}`;
  writeFileSync(join(at, '2026-11-25T18-00-00Z.jsonl'), torn);
  writeFileSync(join(at, '2026-11-25T18-00-00Z-2.jsonl'), '');
  mkdirSync(join(at, '2026-11-23T00-00-00Z.jsonl'));
  writeFileSync(join(at, 'other.txt'), 'no session');
  return { ...rig(at), at, torn };
}

describe('earlier sessions', () => {
  it('are listed the newest first with when, how long and of which layouts; torn and unreadable ones are named', async () => {
    const { call, log } = withSessions();
    log.add('start', 'Amberwick 1.2.3 started.');
    const listed = await call('listSessions', { before: null, most: 100 });
    expect(listed).toMatchObject({ ok: true, value: { total: 4, rest: false } });
    if (!listed.ok) return;
    expect(listed.value.sessions).toEqual([
      {
        name: '2026-11-25T18-00-00Z-2.jsonl',
        from: '',
        to: '',
        entries: 0,
        layouts: [],
        ended: false,
        unreadable: 0,
        problem: null,
      },
      {
        name: '2026-11-25T18-00-00Z.jsonl',
        from: '2026-11-25T18:00:00.000Z',
        to: '2026-11-25T18:20:00.000Z',
        entries: 2,
        layouts: [],
        ended: false,
        unreadable: 1,
        problem: null,
      },
      {
        name: '2026-11-24T19-00-00Z.jsonl',
        from: '2026-11-24T19:00:00.000Z',
        to: '2026-11-24T21:10:00.000Z',
        entries: 4,
        layouts: ['penmarrow'],
        ended: true,
        unreadable: 0,
        problem: null,
      },
      {
        name: '2026-11-23T00-00-00Z.jsonl',
        from: '',
        to: '',
        entries: 0,
        layouts: [],
        ended: false,
        unreadable: 0,
        problem: 'It is no file.',
      },
    ]);
  });

  it('come in parts, each once', async () => {
    const { call } = withSessions();
    const names: string[] = [];
    for (let before: string | null = null, rest = true; rest; ) {
      const part = await call('listSessions', { before, most: 3 });
      if (!part.ok) throw new Error(part.problem.what);
      names.push(...part.value.sessions.map(({ name }) => name));
      before = names.at(-1) ?? null;
      rest = part.value.rest;
    }
    expect(names).toHaveLength(4);
    expect(new Set(names).size).toBe(4);
  });

  it('are read whole, the lines that are none by number, and saved as they stand', async () => {
    const { call, torn } = withSessions();
    const read = await call('readSession', { name: '2026-11-25T18-00-00Z.jsonl' });
    expect(read).toMatchObject({
      ok: true,
      value: { unreadable: [2], entries: [{ number: 1 }, { number: 3, text: 'Amber again.' }] },
    });
    expect(await call('sessionText', { name: '2026-11-25T18-00-00Z.jsonl' })).toEqual({
      ok: true,
      value: { name: '2026-11-25T18-00-00Z.jsonl', text: torn },
    });
  });

  it('are searched in parts, all words in one entry, by what they are about', async () => {
    const { call } = withSessions();
    const found = await call('searchSessions', { words: 'AMBER', groups: ['notes'], before: null, most: 100 });
    expect(found).toMatchObject({
      ok: true,
      value: {
        found: [
          { name: '2026-11-25T18-00-00Z.jsonl', count: 1, entries: [{ number: 3 }] },
          { name: '2026-11-24T19-00-00Z.jsonl', count: 1, entries: [{ number: 3 }] },
        ],
        looked: 4,
        unreadable: ['2026-11-23T00-00-00Z.jsonl'],
        next: null,
      },
    });
    const first = await call('searchSessions', { words: 'amber short', groups: [], before: null, most: 2 });
    expect(first).toMatchObject({ ok: true, value: { found: [], looked: 2, next: '2026-11-25T18-00-00Z.jsonl' } });
  });

  it('cannot be left: no other folder, no other kind of file, no link out of it', async () => {
    const { call, at } = withSessions();
    const secret = join(folder(), 'secret.jsonl');
    writeFileSync(secret, EVENING);
    symlinkSync(secret, join(at, 'link.jsonl'));
    for (const name of [
      '../secret.jsonl',
      '..\\secret.jsonl',
      '/etc/passwd',
      secret,
      '.hidden.jsonl',
      'other.txt',
      '',
    ]) {
      expect(await call('readSession', { name })).toMatchObject({ ok: false, problem: { code: 'badRequest' } });
    }
    for (const name of ['missing.jsonl', 'link.jsonl', '2026-11-23T00-00-00Z.jsonl']) {
      expect(await call('readSession', { name })).toMatchObject({ ok: false, problem: { code: 'sessionUnreadable' } });
    }
    expect(readdirSync(at)).toContain('link.jsonl');
  });

  it('are none where there is no folder', async () => {
    const { call, at } = withSessions();
    rmSync(at, { recursive: true });
    expect(await call('listSessions', { before: null, most: 10 })).toEqual({
      ok: true,
      value: { sessions: [], total: 0, rest: false },
    });
  });

  it('of three thousand evenings: one part reads only its own files', async () => {
    const at = folder();
    for (let day = 0; day < 3000; day++) {
      const date = new Date(Date.UTC(2018, 0, 1 + day, 19)).toISOString();
      writeFileSync(
        join(at, `${date.slice(0, 19).replaceAll(':', '-')}Z.jsonl`),
        line(1, date, 'start', 'Amberwick 1.2.3 started.'),
      );
    }
    // Whoever read the older ones would fall over this one.
    const oldest = '2018-01-01T19-00-00Z.jsonl';
    rmSync(join(at, oldest));
    mkdirSync(join(at, oldest));
    const { call } = rig(at);
    const part = await call('listSessions', { before: null, most: 20 });
    if (!part.ok) throw new Error(part.problem.what);
    expect(part.value.total).toBe(3000);
    expect(part.value.sessions).toHaveLength(20);
    expect(part.value.sessions[0]?.from.slice(0, 10)).toBe('2026-03-19');
  });
});

describe('notes', () => {
  it('have as many lines as the person wrote, and one line on the disk', async () => {
    const { call, logFile, log } = rig();
    await call('remark', { text: '  First   line.\r\n\n\n\nSecond\tline. \n' });
    expect(logFile()[0]?.text).toBe('First line.\n\nSecond line.');
    expect(log.text().split('\n')).toHaveLength(2);
  });

  it('are corrected by an entry that names the first one; nothing is written over', async () => {
    const { call, logFile } = rig();
    await call('remark', { text: 'Shrot.' });
    await call('correctRemark', { number: 1, text: 'Short.' });
    await call('correctRemark', { number: 2, text: 'Too short.' });
    await call('correctRemark', { number: 1, text: '' });
    expect(logFile().map(({ text, data }) => [text, data])).toEqual([
      ['Shrot.', undefined],
      ['Short.', { corrects: 1 }],
      ['Too short.', { corrects: 1 }],
      ['Took a note back.', { corrects: 1, takenBack: true }],
    ]);
  });

  it('only of one’s own can be corrected', async () => {
    const { call, log } = rig();
    log.add('nudge', 'Changed Market Cross.');
    for (const number of [1, 2, 99]) {
      expect(await call('correctRemark', { number, text: 'No.' })).toMatchObject({
        ok: false,
        problem: { code: 'noSuchNote' },
      });
    }
    expect(log.entries).toHaveLength(1);
  });
});

describe('photos', () => {
  it.each([
    ['/home/ann/layouts/photos/cross.jpg', '/home/ann/layouts', 'linux', { path: 'photos/cross.jpg', from: 'layout' }],
    ['photos/cross.jpg', '/home/ann/layouts', 'linux', { path: 'photos/cross.jpg', from: 'layout' }],
    ['../cross.jpg', '/home/ann/layouts', 'linux', { path: '/home/ann/cross.jpg', from: 'computer' }],
    [
      '/home/ann/layouts-old/cross.jpg',
      '/home/ann/layouts',
      'linux',
      { path: '/home/ann/layouts-old/cross.jpg', from: 'computer' },
    ],
    ['/home/ann/cross.jpg', null, 'linux', { path: '/home/ann/cross.jpg', from: 'computer' }],
    ['photos/cross.jpg', null, 'linux', { path: 'photos/cross.jpg', from: 'computer' }],
    ['~/cross.jpg', '/home/ann/layouts', 'linux', { path: '~/cross.jpg', from: 'computer' }],
    ['cross.HEIC', '/home/ann/layouts', 'linux', { path: 'cross.HEIC', from: 'name' }],
    [' "/home/ann/my photos/a.png" ', null, 'linux', { path: '/home/ann/my photos/a.png', from: 'computer' }],
    ['file:///home/ann/my%20photos/a.png', null, 'linux', { path: '/home/ann/my photos/a.png', from: 'computer' }],
    ['C:\\Layouts\\photos\\a.jpg', 'C:\\Layouts', 'win32', { path: 'photos/a.jpg', from: 'layout' }],
    ['D:\\photos\\a.jpg', 'C:\\Layouts', 'win32', { path: 'D:\\photos\\a.jpg', from: 'computer' }],
    ['notes.txt', null, 'linux', null],
    ['/home/ann/', null, 'linux', null],
    ['a\nb.jpg', null, 'linux', null],
    ['file://%00/a.jpg', null, 'linux', null],
    ['.jpg ', null, 'linux', { path: '.jpg', from: 'name' }],
  ] as const)('%j, with the layout in %j on %s', (told, layoutFolder, platform, noted) => {
    expect(notedPhoto(told, layoutFolder, platform)).toEqual(noted);
  });

  it('are noted by path and words; the file is not looked for', async () => {
    const { call, logFile } = rig();
    expect(await call('attachPhoto', { path: '/nowhere/cross.jpg', caption: ' From the north.\nAt dusk. ' })).toEqual({
      ok: true,
      value: null,
    });
    expect(logFile()).toMatchObject([
      {
        kind: 'photo',
        text: 'Photo /nowhere/cross.jpg: From the north.\nAt dusk.',
        data: { path: '/nowhere/cross.jpg', from: 'computer' },
      },
    ]);
  });

  it('are chosen by the system’s dialog where the shell has one; thinking better of it notes nothing', async () => {
    const answers: (string | null)[] = ['/photos/a.jpg', null];
    const { call, log } = rig(undefined, { choosePhoto: async () => answers.shift() ?? null });
    await call('attachPhoto', { path: null, caption: '' });
    await call('attachPhoto', { path: null, caption: 'Never mind.' });
    expect(log.entries.map(({ text }) => text)).toEqual(['Photo /photos/a.jpg.']);
  });

  it('say what to do where there is no dialog, and when it is no photo', async () => {
    const { call } = rig();
    expect(await call('attachPhoto', { path: null, caption: '' })).toMatchObject({
      ok: false,
      problem: { code: 'noPhotoChooser' },
    });
    expect(await call('attachPhoto', { path: 'secrets.txt', caption: '' })).toMatchObject({
      ok: false,
      problem: { code: 'notAPhoto' },
    });
  });

  it('keep their path when their words are corrected', async () => {
    const { call, log } = rig();
    await call('attachPhoto', { path: 'cross.jpg', caption: 'Nroth.' });
    expect(await call('correctRemark', { number: 1, text: 'North.' })).toMatchObject({ ok: true });
    expect(log.entries.at(-1)).toMatchObject({ kind: 'remark', text: 'North.', data: { corrects: 1 } });
  });
});

it('entries about a board, a site or a dial carry their names', async () => {
  const { call, host, log } = rig();
  await host.start();
  await call('nudge', { board: 'town', site: 0, dial: 0, ms: 20_000 });
  expect(log.entries.find(({ kind }) => kind === 'nudge')?.names).toEqual({
    board: 'Town board',
    site: 'Market Cross',
    dial: 'Market Cross green of Fore Street',
  });
  await call('power', { board: 'town', on: false });
  expect(log.entries.find(({ kind }) => kind === 'power')?.names).toEqual({ board: 'Town board' });
});
