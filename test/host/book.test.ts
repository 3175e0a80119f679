import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { BoardBook, bookKey } from '../../electron/host/book/board-book.ts';

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
      kept: { image: TIMES, at: '2026-11-25T19:00:00.000Z' },
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
});
