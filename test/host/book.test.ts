import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { BoardBook, bookKey } from '../../electron/host/book/board-book.ts';
import { thinned } from '../../electron/host/book/thin.ts';
import { NOTHING_WRITTEN, told } from '../../electron/host/book/wear.ts';

const OLD = '1A2B3C4D';
const NEW = '99887766';
const TIMES = Uint8Array.of(1, 2, 250);

let folder: string;
let minute: number;

beforeEach(() => {
  const made = mkdtempSync(join(tmpdir(), 'amberwick-book-'));
  folder = join(made, 'boards');
  minute = 0;
  onTestFinished(() => rmSync(made, { recursive: true }));
});

const book = () => new BoardBook(folder, () => new Date(Date.UTC(2026, 10, 25, 19, minute++)));

describe('the book of boards', () => {
  it('still knows a board after the app was closed: its place, its chip, what it keeps', () => {
    book().learn(OLD, 'atmega328p', { board: 'town', name: 'Town board', signature: '1E9516', kept: TIMES });
    expect(book().recall(OLD)).toEqual({
      key: OLD,
      board: 'town',
      name: 'Town board',
      chip: 'atmega328p',
      signature: '1E9516',
      loader: null,
      kept: { image: TIMES, at: '2026-11-25T19:00:00.000Z', layout: '', dials: [] },
      earlier: [],
      tally: { keeps: 0, told: 0, sends: 0 },
    });
    expect(book().recall(NEW)).toBeNull();
  });

  it('adds what is new and leaves the rest', () => {
    const pages = book();
    pages.learn(OLD, 'atmega328p', { board: 'town', name: 'Town board', kept: TIMES });
    pages.learn(OLD, 'atmega328p', { loader: 'v1-57600' });
    expect(pages.recall(OLD)).toMatchObject({ name: 'Town board', loader: 'v1-57600', kept: { image: TIMES } });
  });

  it('copies what is kept only when it has changed, so that the time says since when it is so', () => {
    const pages = book();
    pages.learn(OLD, 'atmega328p', { board: 'town', kept: TIMES });
    minute = 30;
    pages.learn(OLD, 'atmega328p', { kept: TIMES.slice() });
    expect(pages.recall(OLD)?.kept?.at).toBe('2026-11-25T19:00:00.000Z');
    pages.learn(OLD, 'atmega328p', { kept: Uint8Array.of(1, 2, 251) });
    expect(pages.recall(OLD)?.kept?.at).toBe('2026-11-25T19:30:00.000Z');
  });

  it('has the copies for a place of the layout, the newest first, and none of other chips or places', () => {
    const pages = book();
    pages.learn(OLD, 'atmega328p', { board: 'town', kept: TIMES });
    pages.learn(NEW, 'atmega328p', { board: 'town', kept: Uint8Array.of(7) });
    pages.learn('00000001', 'atmega2560', { board: 'town', kept: Uint8Array.of(8) });
    pages.learn('00000002', 'atmega328p', { board: 'hill', kept: Uint8Array.of(9) });
    pages.learn('00000003', 'atmega328p', { board: 'town', name: 'kept nothing' });
    expect(pages.copiesFor('town', 'atmega328p').map(({ key }) => key)).toEqual([NEW, OLD]);
  });

  it('passes over a page that was damaged, and leaves its file for whoever wants to look at it', () => {
    book().learn(OLD, 'atmega328p', { board: 'town', kept: TIMES });
    writeFileSync(join(folder, `${NEW}.json`), '{"key":"99887766","kept":{"image":"XY"');
    const pages = book();
    expect(pages.recall(NEW)).toBeNull();
    expect(pages.recall(OLD)?.kept?.image).toEqual(TIMES);
    expect(readdirSync(folder).sort()).toEqual([`${OLD}.json`, `${NEW}.json`].sort());
  });

  it('goes on without a disk, and says why', () => {
    writeFileSync(folder, 'a file where the folder should be');
    const pages = book();
    pages.learn(OLD, 'atmega328p', { board: 'town', kept: TIMES });
    expect(pages.failure).toMatch(/EEXIST|ENOTDIR/);
    expect(pages.recall(OLD)?.kept?.image).toEqual(TIMES);
  });

  it('knows a board without an identity by its place, whatever the place is called', () => {
    const key = bookKey('00000000', '../town / 1');
    book().learn(key, 'atmega328p', { board: '../town / 1', kept: TIMES });
    const [file = ''] = readdirSync(folder);
    expect(JSON.parse(readFileSync(join(folder, file), 'utf8')).board).toBe('../town / 1');
    expect(book().recall(key)?.kept?.image).toEqual(TIMES);
    expect(bookKey(OLD, 'town')).toBe(OLD);
  });

  it('reads pages that were written before it kept earlier copies', () => {
    const page = { key: OLD, board: 'town', name: 'Town board', chip: 'atmega328p', signature: null, loader: null };
    mkdirSync(folder, { recursive: true });
    const kept = { image: '0102FA', at: '2026-11-20T19:00:00.000Z' };
    writeFileSync(join(folder, `${OLD}.json`), JSON.stringify({ ...page, kept }));
    const pages = book();
    pages.learn(OLD, 'atmega328p', { kept: Uint8Array.of(7) });
    expect(pages.recall(OLD)).toMatchObject({
      kept: { image: Uint8Array.of(7) },
      earlier: [{ image: TIMES, at: kept.at, layout: '', dials: [] }],
    });
  });

  it('has what a board kept before, the newest first, with the names of that day', () => {
    const pages = book();
    const named = { layout: 'Penmarrow', dials: [{ name: 'Market Cross green of Fore Street', ms: 18_000 }] };
    pages.learn(OLD, 'atmega328p', { kept: TIMES, named });
    pages.learn(OLD, 'atmega328p', { kept: Uint8Array.of(7) });
    pages.learn(OLD, 'atmega328p', { kept: TIMES });
    const { kept, earlier } = book().recall(OLD) ?? { kept: null, earlier: [] };
    expect(kept).toMatchObject({ image: TIMES, at: '2026-11-25T19:02:00.000Z' });
    expect(earlier.map(({ image }) => image)).toEqual([Uint8Array.of(7), TIMES]);
    expect(earlier[1]).toMatchObject(named);
  });

  it('takes away what a process that was killed has left half-written, and nothing of one that lives', () => {
    book().learn(OLD, 'atmega328p', { kept: TIMES });
    const dead = spawnSync(process.execPath, ['-e', '']).pid;
    writeFileSync(join(folder, `${OLD}.json.${dead}.part`), '{"key":');
    writeFileSync(join(folder, `${OLD}.json.${process.ppid}.part`), '{"key":');
    book();
    expect(readdirSync(folder).sort()).toEqual([`${OLD}.json`, `${OLD}.json.${process.ppid}.part`]);
  });
});

describe('thinning', () => {
  const now = new Date(2026, 10, 25, 19, 0);
  const at = (day: number, hour: number) => ({ at: new Date(2026, 10, day, hour).toISOString() });

  it('keeps all of today, the last of each day of a week, the last of each week before', () => {
    const all = [
      at(25, 18),
      at(25, 9),
      at(24, 20),
      at(24, 8),
      at(20, 10),
      at(18, 12),
      at(17, 12),
      at(12, 12),
      at(10, 9),
    ];
    // The 25th is a Wednesday; the 16th and the 9th were Mondays.
    const left = [at(25, 18), at(25, 9), at(24, 20), at(20, 10), at(18, 12), at(12, 12)];
    expect(thinned(all, now)).toEqual(left);
  });

  it('last week stays, however often is kept today', () => {
    const today = Array.from({ length: 100 }, (_, minute) => ({
      at: new Date(2026, 10, 25, 18, 59 - minute).toISOString(),
    }));
    const left = thinned([...today.slice(0, 60), at(24, 20), at(17, 12)], now);
    expect(left).toHaveLength(22);
    expect(left.slice(-2)).toEqual([at(24, 20), at(17, 12)]);
  });

  it('a year of keeps, thinned each time, are some tens of copies and reach back for weeks', () => {
    let copies: { readonly at: string }[] = [];
    const begin = Date.UTC(2026, 0, 1);
    for (let hour = 0; hour < 24 * 365; hour += 5) {
      const moment = new Date(begin + hour * 3_600_000);
      copies = thinned([{ at: moment.toISOString() }, ...copies], moment);
      expect(copies.length).toBeLessThanOrEqual(34);
    }
    const oldest = Date.parse(copies.at(-1)?.at ?? '');
    expect((begin + 365 * 86_400_000 - oldest) / 86_400_000).toBeGreaterThan(49);
  });
});

describe('the count of writes', () => {
  it("goes on over the turn of the board's 16 bits", () => {
    let tally = NOTHING_WRITTEN;
    for (let keeps = 0; keeps <= 90_000; keeps += 10_000) tally = told(tally, keeps & 0xffff);
    expect(tally).toEqual({ keeps: 90_000, told: 90_000 & 0xffff, sends: 0 });
  });

  it('and where the board has been erased and counts anew', () => {
    expect(told(told(told(NOTHING_WRITTEN, 41), 0), 3).keeps).toBe(44);
    expect(told(told(NOTHING_WRITTEN, 41), 2).keeps).toBe(43);
  });

  it('is on the page of the board, with what was sent', () => {
    const pages = book();
    pages.learn(OLD, 'atmega328p', { keeps: 41 });
    pages.sending(OLD, 'atmega328p');
    expect(book().facts(OLD)?.tally).toEqual({ keeps: 41, told: 41, sends: 1 });
  });
});
