/** Layout files on the disk: opened, saved, listed, never lost, and nothing else of the disk within reach. */
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LayoutCopy } from '../../electron/host/book/layout-copy.ts';
import { layoutsFolder } from '../../electron/host/files/places.ts';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import type { LayoutFile } from '../../shared/workbench/calls/files.ts';
import { home, places } from './places.ts';
import { rig } from './rig.ts';

const named = (name: string): string => JSON.stringify({ ...JSON.parse(EXAMPLE.text), name });

/** A host with a disk, on which a person has saved nothing yet. */
function bench(more: Parameters<typeof places>[1] = {}) {
  const root = home();
  const files = places(root, more);
  const layouts = new LayoutCopy(join(root, 'data'));
  const made = rig(undefined, { files, layouts });
  const document = async () => {
    const scene = await made.call('look', {});
    if (!scene.ok) throw new Error(scene.problem.what);
    return scene.value.document;
  };
  const file = (name: string): string => join(root, 'Layouts', name);
  const read = (name: string): string => readFileSync(file(name), 'utf8');
  const listed = async () => {
    const list = await made.call('listFiles', {});
    if (!list.ok) throw new Error(list.problem.what);
    return list.value;
  };
  const names = (list: readonly LayoutFile[]): string[] => list.map((it) => it.name);
  const code = (outcome: { ok: boolean; problem?: { code: string } }): string => outcome.problem?.code ?? 'ok';
  return { ...made, root, layouts, document, file, read, listed, names, code };
}

describe('saving', () => {
  it('has no file first, then makes the folder, and then knows its file', async () => {
    const { call, document, read, code, logged, root } = bench();
    await call('newLayout', { name: 'Quay Hill', text: named('Quay Hill'), what: 'Began Quay Hill.' });
    expect((await document()).file).toEqual({ folder: null, unsaved: true, recovered: false });
    expect(code(await call('save', { over: false }))).toBe('noFileYet');
    expect(readdirSync(root)).not.toContain('Layouts');
    expect(code(await call('saveAs', { name: 'Quay Hill', over: false }))).toBe('ok');
    expect(read('Quay Hill.amberwick')).toBe(named('Quay Hill'));
    expect(await document()).toMatchObject({
      name: 'Quay Hill.amberwick',
      file: { folder: '~/Layouts', unsaved: false, recovered: false },
    });
    await call('changeText', { text: named('Quay'), what: 'Renamed it.' });
    expect((await document()).file.unsaved).toBe(true);
    expect(code(await call('save', { over: false }))).toBe('ok');
    expect([read('Quay Hill.amberwick'), (await document()).file.unsaved]).toEqual([named('Quay'), false]);
    expect(logged().slice(-1)).toEqual(['Saved Quay Hill.amberwick.']);
  });

  it('keeps what was in the file before this session beside it, once', async () => {
    const { call, file, read } = bench();
    await call('saveAs', { name: 'town.json', over: false });
    writeFileSync(file('town.json'), named('Last winter'));
    await call('openFile', { from: 'folder', id: 'town.json' });
    for (const name of ['One', 'Two']) {
      await call('changeText', { text: named(name), what: 'Renamed it.' });
      await call('save', { over: false });
    }
    expect([read('town.json'), read('town.json.bak')]).toEqual([named('Two'), named('Last winter')]);
    expect(readdirSync(join(file('town.json'), '..')).sort()).toEqual(['town.json', 'town.json.bak']);
  });

  it('does not write over what something else has written, until told to', async () => {
    const { call, code, file, read } = bench();
    await call('saveAs', { name: 'town', over: false });
    await call('changeText', { text: named('Mine'), what: 'Renamed it.' });
    for (const theirs of [named('Theirs'), Buffer.from([0xff, 0xfe, 0])]) {
      writeFileSync(file('town.amberwick'), theirs);
      expect(code(await call('save', { over: false }))).toBe('fileChanged');
    }
    writeFileSync(file('town.amberwick'), named('Theirs'));
    expect(code(await call('save', { over: true }))).toBe('ok');
    expect([read('town.amberwick'), read('town.amberwick.bak')]).toEqual([named('Mine'), named('Theirs')]);
  });

  it('can take what the file has now instead, and then saves again', async () => {
    const { call, code, file, document } = bench();
    await call('saveAs', { name: 'town', over: false });
    await call('changeText', { text: named('Mine'), what: 'Renamed it.' });
    writeFileSync(file('town.amberwick'), named('Theirs'));
    expect(await call('readSaved', {})).toEqual({ ok: true, value: { text: named('Theirs') } });
    await call('changeText', { text: named('Theirs'), what: 'Went back to what is saved.' });
    expect((await document()).file.unsaved).toBe(false);
    await call('changeText', { text: named('Mine'), what: 'Undid it.' });
    expect(code(await call('save', { over: false }))).toBe('ok');
  });

  it('writes anew what was deleted, and does not take the name of another file', async () => {
    const { call, code, file, read } = bench();
    await call('saveAs', { name: 'one', over: false });
    await call('saveAs', { name: 'two', over: false });
    expect(code(await call('saveAs', { name: 'one', over: false }))).toBe('nameTaken');
    expect(code(await call('saveAs', { name: 'one', over: true }))).toBe('ok');
    rmSync(file('one.amberwick'));
    expect(code(await call('save', { over: false }))).toBe('ok');
    expect(read('one.amberwick')).toBe(EXAMPLE.text);
  });

  it('says why the disk does not take it, and nothing is lost', async () => {
    const { call, code, document, root } = bench();
    writeFileSync(join(root, 'Layouts'), 'a file where the folder would be');
    expect(code(await call('saveAs', { name: 'town', over: false }))).toBe('notSaved');
    expect(await document()).toMatchObject({ name: 'penmarrow.json', text: EXAMPLE.text });
  });
});

describe('names and ways out', () => {
  it.each([
    '',
    '  ',
    '.hidden',
    'a/b',
    'a\\b',
    '../town',
    '/etc/passwd',
    'C:town',
    'nul',
    'COM1.json',
    'lpt¹',
    'x\u0000y',
  ])('no file can be called %j', async (name) => {
    const { call, root } = bench();
    const outcome = await call('saveAs', { name, over: true });
    expect(outcome.ok).toBe(false);
    expect(readdirSync(root)).not.toContain('Layouts');
  });

  it('neither a path nor a link leads out of the folder', async () => {
    const { call, code, root, file, read } = bench();
    mkdirSync(join(root, 'Layouts'));
    const secret = join(root, 'secret.json');
    writeFileSync(secret, named('Secret'));
    symlinkSync(secret, file('link.json'));
    for (const id of ['../secret.json', 'link.json', secret, '..', '.', 'secret.json\0', './../secret.json']) {
      expect(code(await call('openFile', { from: 'folder', id }))).toBe('fileGone');
      expect(code(await call('openFile', { from: 'recent', id }))).toBe('fileGone');
      expect(code(await call('openFile', { from: 'left', id }))).toBe('fileGone');
    }
    expect(code(await call('saveAs', { name: 'link.json', over: true }))).not.toBe('ok');
    expect([readFileSync(secret, 'utf8'), read('link.json')]).toEqual([named('Secret'), named('Secret')]);
  });

  it('only layout files are listed, the newest first', async () => {
    const { call, listed, names, file, root } = bench();
    for (const name of ['one', 'two']) await call('saveAs', { name, over: false });
    for (const name of ['notes.txt', '.hidden.json']) writeFileSync(file(name), 'x');
    mkdirSync(file('folder.json'));
    symlinkSync(join(root, 'data'), file('data.amberwick'));
    const { files, recent, folder } = await listed();
    expect([folder, names(files).sort(), names(recent)]).toEqual([
      '~/Layouts',
      ['one.amberwick', 'two.amberwick'],
      ['two.amberwick', 'one.amberwick'],
    ]);
  });

  it('the folder is the one that was named, else in the Documents of the person', () => {
    const at = (env: Record<string, string>, has: boolean) =>
      layoutsFolder({ env, home: '/home/ann', exists: () => has });
    expect([at({}, true), at({}, false), at({ AMBERWICK_LAYOUTS: '/mnt/club' }, true)]).toEqual([
      join('/home/ann', 'Documents', 'Amberwick'),
      join('/home/ann', 'Amberwick'),
      '/mnt/club',
    ]);
  });
});

describe('opening', () => {
  it('a file that is no layout says what is wrong where, and what was open stays', async () => {
    const { call, code, document, file } = bench();
    await call('saveAs', { name: 'town', over: false });
    const broken = JSON.parse(EXAMPLE.text);
    broken.sites[0].stages[0].green = 'long';
    broken.sites[1].kind = 'roundabout';
    delete broken.name;
    writeFileSync(file('broken.json'), JSON.stringify(broken));
    const outcome = await call('openFile', { from: 'folder', id: 'broken.json' });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'layoutUnreadable' } });
    if (!outcome.ok) expect(outcome.problem.why).toMatch(/"name" is missing\..*sites\[0\].*sites\[1\]/);
    for (const bytes of [Buffer.from([0xff, 0xfe, 0x7b, 0]), Buffer.alloc(4_000_001, ' ')]) {
      writeFileSync(file('bytes.json'), bytes);
      expect(code(await call('openFile', { from: 'folder', id: 'bytes.json' }))).toBe('fileUnreadable');
    }
    expect((await document()).name).toBe('town.amberwick');
  });

  it('recent ones open by their ids; one that is gone says so and can be forgotten', async () => {
    const { call, code, listed, document, file } = bench();
    await call('saveAs', { name: 'one', over: false });
    await call('openExample', {});
    const [one] = (await listed()).recent;
    expect(code(await call('openFile', { from: 'recent', id: one?.id ?? '' }))).toBe('ok');
    expect(await document()).toMatchObject({ name: 'one.amberwick', file: { folder: '~/Layouts', unsaved: false } });
    rmSync(file('one.amberwick'));
    expect((await listed()).recent[0]?.exists).toBe(false);
    expect(code(await call('openFile', { from: 'recent', id: one?.id ?? '' }))).toBe('fileGone');
    await call('forgetFile', { from: 'recent', id: one?.id ?? '' });
    expect((await listed()).recent).toEqual([]);
  });

  it('what a newer program wrote has no file here, so that it is not saved over', async () => {
    const { call, code, document, file, read } = bench();
    await call('saveAs', { name: 'town', over: false });
    const newer = JSON.stringify({ ...JSON.parse(EXAMPLE.text), version: 9, mood: 'dusk' });
    writeFileSync(file('newer.json'), newer);
    await call('openFile', { from: 'folder', id: 'newer.json' });
    expect(await document()).toMatchObject({ name: 'newer.json', text: newer, file: { folder: null, unsaved: false } });
    expect(code(await call('save', { over: true }))).toBe('noFileYet');
    expect(code(await call('saveAs', { name: 'newer.json', over: false }))).toBe('nameTaken');
    expect(read('newer.json')).toBe(newer);
  });

  it('a system that hands a file over waits for the first layout of the start', async () => {
    const { host, call, root, document } = bench();
    const path = join(root, 'handed.amberwick');
    writeFileSync(path, named('Handed over'));
    const opening = host.openPath(path);
    await host.start();
    expect(await opening).toEqual({ ok: true, value: null });
    expect((await document()).name).toBe('handed.amberwick');
    expect(await host.openPath(join(root, 'nothing.json'))).toMatchObject({ problem: { code: 'fileGone' } });
    await call('look', {});
  });
});

describe('with the dialogs of the system', () => {
  it('they are asked, and thinking better of it changes nothing', async () => {
    const asked: string[] = [];
    const answers: (string | null)[] = [];
    const chooser = {
      open: async () => answers.shift() ?? null,
      saveAs: async (name: string) => {
        asked.push(name);
        return answers.shift() ?? null;
      },
    };
    const { call, document, listed, root } = bench({ chooser });
    await call('chooseFile', {});
    await call('saveAs', { name: 'Penmarrow', over: false });
    expect((await document()).file.folder).toBe(null);
    answers.push(join(root, 'club night'));
    expect(await call('saveAs', { name: 'Penmarrow', over: false })).toEqual({ ok: true, value: null });
    expect(statSync(join(root, 'club night.amberwick')).isFile()).toBe(true);
    expect(asked).toEqual(['Penmarrow.amberwick', 'Penmarrow.amberwick']);
    await call('openExample', {});
    answers.push(join(root, 'club night.amberwick'));
    await call('chooseFile', {});
    expect(await document()).toMatchObject({ name: 'club night.amberwick', file: { folder: '~' } });
    expect((await listed()).folder).toBe(null);
  });
});

describe('nothing is lost', () => {
  it('what is left unsaved for another layout is kept, listed, and put back by undo or from the list', async () => {
    const { call, document, listed, names } = bench();
    const first = (await document()).opened;
    await call('changeText', { text: named('Half done'), what: 'Renamed it.' });
    await call('newLayout', { name: 'Other', text: named('Other'), what: 'Began Other.' });
    expect(names((await listed()).left)).toEqual(['penmarrow.json']);
    expect(await call('turnBack', { to: first })).toEqual({ ok: true, value: null });
    expect(await document()).toMatchObject({ text: named('Half done'), opened: first, file: { unsaved: true } });
    // Now it is the other one that was left; nothing of the first lies about.
    expect(names((await listed()).left)).toEqual(['Other']);
    const [other] = (await listed()).left;
    await call('openFile', { from: 'left', id: other?.id ?? '' });
    expect(await document()).toMatchObject({ text: named('Other'), file: { unsaved: true } });
    expect(names((await listed()).left)).toEqual(['penmarrow.json']);
    expect(await call('turnBack', { to: 12 })).toMatchObject({ problem: { code: 'notOpenBefore' } });
  });

  it('a layout with a file that is closed unsaved comes back with its file and its changes', async () => {
    const { call, host, layouts, root, code, read } = bench();
    await host.start();
    await call('saveAs', { name: 'town', over: false });
    await call('changeText', { text: named('Late'), what: 'Renamed it.' });
    await host.close();
    const next = rig(undefined, { files: places(root), layouts });
    await next.host.start();
    expect(await next.call('look', {})).toMatchObject({
      value: {
        document: { name: 'town.amberwick', text: named('Late'), file: { folder: '~/Layouts', unsaved: true } },
      },
    });
    expect(code(await next.call('save', { over: false }))).toBe('ok');
    expect(read('town.amberwick')).toBe(named('Late'));
  });

  it('a layout that was saved comes back as its file is then; without it from the copy', async () => {
    const { call, host, layouts, root, file } = bench();
    await host.start();
    await call('saveAs', { name: 'town', over: false });
    await host.close();
    writeFileSync(file('town.amberwick'), named('From the club'));
    const next = rig(undefined, { files: places(root), layouts });
    await next.host.start();
    expect(await next.call('look', {})).toMatchObject({ value: { document: { text: named('From the club') } } });
    await next.host.close();
    rmSync(file('town.amberwick'));
    const last = rig(undefined, { files: places(root), layouts });
    await last.host.start();
    expect(await last.call('look', {})).toMatchObject({
      value: { document: { text: named('From the club'), file: { unsaved: true } } },
    });
    expect(last.logged()).toContain('Opened town.amberwick from the copy on this computer, as its file is not there.');
  });

  it('what can no longer be read at the start is not thrown away, and a disk that takes no copy is told of once', async () => {
    const { root, layouts } = bench();
    layouts.note({ name: 'odd.json', text: '{"format":"other"}' });
    const next = rig(undefined, { files: places(root), layouts });
    await next.host.start();
    const list = await next.call('listFiles', {});
    expect(list.ok && list.value.left.map(({ name }) => name)).toEqual(['odd.json']);
    rmSync(join(root, 'data'), { recursive: true });
    writeFileSync(join(root, 'data'), 'a file where the folder would be');
    for (const name of ['One', 'Two'])
      await next.call('changeText', { text: named(name), what: `Renamed it ${name}.` });
    const told = next.logged().filter((line) => line.startsWith('The open layout could not be copied'));
    expect(told).toHaveLength(1);
  });
});
