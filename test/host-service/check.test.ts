/** The host's part of a lamp check: what it asks of the board, what it refuses, what it keeps and writes down. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { CheckBook } from '../../electron/host/checks/check-book.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import { settle } from '../host/fake-clock.ts';
import { connected } from './rig.ts';
import type { TableBoard } from './table-board.ts';

const RECORD: CheckRecord = {
  board: 'town',
  by: 'Morwenna',
  began: '2026-11-20T19:00:00.000Z',
  lamps: [
    {
      site: 'market-cross',
      label: 'Fore Street',
      colour: 'red',
      output: 'D2',
      result: 'right',
      at: '2026-11-20T19:01:00.000Z',
    },
  ],
};

/** A board that understands lamps, and the lamp requests that it has heard since the last look. */
async function bench(change: (board: TableBoard) => void = () => {}, data?: string) {
  const rig = await connected((board) => {
    board.firmware = '1.2.0';
    board.script = { lamp: () => [] };
    change(board);
  }, data);
  let seen = 0;
  const asked = (): string[] => {
    const heard = rig.real.line.heard.filter(({ word }) => word === 'lamp' || word === 'master');
    const news = heard.slice(seen);
    seen = heard.length;
    return news.map(({ word, args }) => [word, ...args].join(' '));
  };
  return { ...rig, asked };
}

it('darkens all lamps, lights one at a time and lets go of all', async () => {
  const { call, asked, board, logged } = await bench();
  expect(await call('beginCheck', { board: 'town', others: 'dark' })).toEqual({ ok: true, value: null });
  expect(board().checking).toBe(true);
  await call('light', { board: 'town', lamp: 3, forMs: 0 });
  await call('light', { board: 'town', lamp: 3, forMs: 150 });
  await call('light', { board: 'town', lamp: 4, forMs: 0 });
  await call('light', { board: 'town', lamp: null, forMs: 0 });
  await call('endCheck', { board: 'town' });
  expect(board().checking).toBe(false);
  expect(asked()).toEqual([
    'lamp all off',
    'lamp 3 on',
    'lamp 3 on 150',
    'lamp 3 off',
    'lamp 4 on',
    'lamp 4 off',
    'lamp all auto',
  ]);
  expect(logged().slice(-2)).toEqual([
    'Began a lamp check on Town board; all other lamps are dark.',
    'Ended the lamp check on Town board; its sites show again.',
  ]);
  // To end what is not under way is no mistake, and asks nothing.
  expect((await call('endCheck', { board: 'town' })).ok).toBe(true);
  expect(asked()).toEqual([]);
});

it('with safe aspects only the site of the lit lamp is held dark', async () => {
  const { call, asked } = await bench();
  await call('beginCheck', { board: 'town', others: 'safe' });
  expect(asked()).toEqual(['lamp all auto', 'master safe']);
  await call('light', { board: 'town', lamp: 12, forMs: 0 });
  expect(asked()).toEqual(['lamp 12 off', 'lamp 13 off', 'lamp 12 on']);
  await call('light', { board: 'town', lamp: 0, forMs: 0 });
  expect(asked()).toEqual([
    'lamp 12 off',
    ...[0, 1, 2, 3, 4, 5].map((lamp) => `lamp ${lamp} off`),
    'lamp 0 on',
    'lamp 12 auto',
    'lamp 13 auto',
  ]);
  await call('endCheck', { board: 'town' });
  expect(asked()).toEqual(['lamp all auto', 'master auto']);
});

it('lights in order however fast it is asked', async () => {
  const { call, asked } = await bench();
  await call('beginCheck', { board: 'town', others: 'dark' });
  await Promise.all([5, 6, 7].map((lamp) => call('light', { board: 'town', lamp, forMs: 0 })));
  expect(asked()).toEqual(['lamp all off', 'lamp 5 on', 'lamp 5 off', 'lamp 6 on', 'lamp 6 off', 'lamp 7 on']);
});

it('does not light what nothing is known of on firmware that cannot end it', async () => {
  const { call, asked } = await bench((board) => {
    board.firmware = '1.1.0';
  });
  await call('beginCheck', { board: 'town', others: 'dark' });
  const refused = await call('light', { board: 'town', lamp: 3, forMs: 150 });
  expect(refused).toMatchObject({
    ok: false,
    problem: { code: 'cannotTimeLamps', next: expect.stringContaining('Update the firmware') },
  });
  expect((await call('light', { board: 'town', lamp: 3, forMs: 0 })).ok).toBe(true);
  expect(asked()).toEqual(['lamp all off', 'lamp 3 on']);
});

it('refuses without a check, without the layout on the board, and while it is at work', async () => {
  const { call, real } = await bench();
  expect(await call('light', { board: 'town', lamp: 3, forMs: 0 })).toMatchObject({ problem: { code: 'noCheck' } });
  real.line.replies.begin = () => null;
  void call('send', { board: 'town' });
  await settle();
  expect(await call('beginCheck', { board: 'town', others: 'dark' })).toMatchObject({ problem: { code: 'boardBusy' } });
  real.line.stream.unplug();
  await settle();
  expect(await call('beginCheck', { board: 'town', others: 'dark' })).toMatchObject({ ok: false });
});

it('sending ends a check first, since a table that starts drops it anyway', async () => {
  const { call, asked, board } = await bench();
  await call('beginCheck', { board: 'town', others: 'safe' });
  asked();
  await call('send', { board: 'town' });
  expect(asked()).toEqual(['lamp all auto', 'master auto']);
  expect(board().checking).toBe(false);
});

it('another layout on the screen ends a check: its lamps have other numbers', async () => {
  const { call, asked, board, host } = await bench();
  await call('beginCheck', { board: 'town', others: 'dark' });
  asked();
  const { text } = (await call('look', {}).then((it) => (it.ok ? it.value : null)))?.document ?? { text: '' };
  expect(host).toBeDefined();
  await call('changeText', { text: text.replace('"D2"', '"A5"'), what: 'Moved a lamp.' });
  await settle();
  expect(asked()).toEqual(['lamp all auto']);
  expect(board().checking).toBe(false);
});

it.each([
  ['the board starts anew', (real: TableBoard) => real.line.event('hello', 1, 'reset', '01')],
  ['the board has heard nothing', (real: TableBoard) => real.line.event('alone', 6000)],
  ['the cable is out', (real: TableBoard) => real.line.stream.unplug()],
])('breaks off when %s', async (_, happens) => {
  const { call, real, board, logged } = await bench();
  await call('beginCheck', { board: 'town', others: 'dark' });
  happens(real);
  await settle();
  expect(board().checking).toBe(false);
  expect(logged()).toContain('The lamp check on Town board broke off; what was answered is kept.');
});

it('keeps what was found: in the state, in the log, and for the next day', async () => {
  const { call, board, log } = await bench();
  expect(board().check).toBe(null);
  await call('noteCheck', { board: 'town', record: RECORD, said: 'Checked Market Cross, Fore Street, red: right.' });
  expect(board().check).toEqual(RECORD);
  expect(log.entries.at(-1)).toMatchObject({ kind: 'check', text: 'Checked Market Cross, Fore Street, red: right.' });
  expect(await call('noteCheck', { board: 'town', record: { ...RECORD, board: 'other' }, said: 'x' })).toMatchObject({
    ok: false,
  });
  // A layout of another name has other lamps.
  const text = (await call('look', {}).then((it) => (it.ok ? it.value.document.text : ''))).replace(
    '"Penmarrow"',
    '"Penmarrow Quay"',
  );
  await call('openText', { name: 'quay.json', text });
  expect(board().check).toBe(null);
  await call('openExample', {});
  expect(board().check).toEqual(RECORD);
});

it('a check that was left is there on the next day, with the board that it is about', async () => {
  const today = await bench();
  await today.call('beginCheck', { board: 'town', others: 'dark' });
  await today.call('noteCheck', { board: 'town', record: RECORD, said: 'Checked one.' });
  await today.host.close();
  const tomorrow = await bench(undefined, today.folder);
  expect(tomorrow.board()).toMatchObject({ check: RECORD, checking: false });
});

it('a notebook is on the disk whole or not at all, and what cannot be read is no record', () => {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-checks-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const book = new CheckBook(folder);
  book.note('Penmarrow', RECORD);
  expect(book.failure).toBe(null);
  const [name = ''] = readdirSync(folder);
  expect(readdirSync(folder)).toHaveLength(1);
  expect(new CheckBook(folder).recall('Penmarrow', 'town')).toEqual(RECORD);
  expect(new CheckBook(folder).recall('Penmarrow Quay', 'town')).toBe(null);
  expect(new CheckBook(folder).recall('Penmarrow', 'harbour')).toBe(null);
  const text = readFileSync(join(folder, name), 'utf8');
  for (const broken of [
    '',
    text.slice(0, -5),
    text.replace('"right"', '"splendid"'),
    text.replace('Penmarrow', 'Elsewhere'),
  ]) {
    writeFileSync(join(folder, name), broken);
    expect(new CheckBook(folder).recall('Penmarrow', 'town')).toBe(null);
  }
});

it('says once that the disk does not take it, and goes on', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-checks-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  writeFileSync(join(folder, 'file'), '');
  const book = new CheckBook(join(folder, 'file'));
  book.note('Penmarrow', RECORD);
  expect(book.failure).not.toBe(null);
  expect(book.recall('Penmarrow', 'town')).toEqual(RECORD);
});
