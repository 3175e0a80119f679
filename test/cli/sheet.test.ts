import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sheet } from '../../scripts/cli/sheet.ts';
import { byName, parseXml } from '../drawings/xml.ts';
import { example, typed } from './typed.ts';

const town = example('penmarrow');
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-sheet-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const out = (name: string): string => join(folder, name);

describe('sheet', () => {
  test('writes one page that stands alone, with the name of the file and the day', () => {
    const file = out('town.html');
    const { exit, text, data } = sheet(town, { output: file, paper: 'a4' }, new Date(2026, 10, 25, 19, 0));
    expect([exit, text, data]).toEqual([
      0,
      [`Wrote ${file}. Open it in a browser and print it at 100 %.`],
      { file, boards: ['town'] },
    ]);
    const source = readFileSync(file, 'utf8');
    const root = parseXml(source.slice('<!doctype html>\n'.length).trim());
    expect(byName(root, 'dd').map((it) => it.text)).toEqual(
      expect.arrayContaining(['Town board, ATmega328P', 'penmarrow.json', '25 November 2026', 'not done']),
    );
    expect(byName(root, 'h2').map((it) => it.text)).toEqual([
      'Town board: lamps',
      'Town board: pins and wires',
      'Town board: posts to cut, at scale 1:1',
      'Town board: parts',
      'Town board: wire labels',
    ]);
  });

  test('from the command line: paper, the board, JSON', async () => {
    const file = out('letter.html');
    const { exit, json, err } = await typed(
      'sheet',
      town,
      '-o',
      file,
      '--paper',
      'letter',
      '--board',
      'town',
      '--json',
    );
    expect([exit, err]).toEqual([0, '']);
    expect(json()).toMatchObject({ ok: true, file, boards: ['town'] });
    expect(readFileSync(file, 'utf8')).toContain('@page{size:letter portrait');
  });

  test('writes a table for a spreadsheet', async () => {
    const file = out('town.csv');
    expect((await typed('sheet', town, '-o', file)).out).toBe(`Wrote ${file}.\n`);
    const lines = readFileSync(file, 'utf8').split('\r\n');
    // 14 lamps, the head, and nothing after the last end of line.
    expect(lines).toHaveLength(16);
    expect(lines[1]).toContain('Town board,D2,PD2,lamp,Market Cross,');
  });

  test.each([
    ['town.pdf', 'The command line makes no PDF files.', /print it to a PDF file; or use “Wiring sheet” in the app/],
    ['town.txt', 'cannot be written as', /ends with \.html for a page to print, or with \.csv for a table/],
    ['town', 'cannot be written as', /\.html/],
  ])('%s is refused, and nothing is written', async (name, what, next) => {
    const { exit, err } = await typed('sheet', town, '-o', out(name));
    expect(exit).toBe(2);
    expect(err).toContain(what);
    expect(err).toMatch(next);
    expect(existsSync(out(name))).toBe(false);
  });

  test('arguments that mean nothing, files that are none, places that are not there', async () => {
    const file = out('never.html');
    expect(await typed('sheet', town, '-o', file, '--paper', 'a5')).toMatchObject({ exit: 2 });
    const board = await typed('sheet', town, '-o', file, '--board', 'quay');
    expect([board.exit, board.err]).toEqual([
      2,
      expect.stringContaining('The layout has no board "quay"; it has town.'),
    ]);
    expect((await typed('sheet', out('nothing.json'), '-o', file)).exit).toBe(2);
    const broken = out('broken.json');
    const layout = JSON.parse(readFileSync(town, 'utf8'));
    writeFileSync(broken, JSON.stringify({ ...layout, sites: [{ ...layout.sites[0], board: 'gone' }] }));
    expect((await typed('sheet', broken, '-o', file)).exit).toBe(1);
    expect(existsSync(file)).toBe(false);
    const away = await typed('sheet', town, '-o', join(folder, 'no', 'such', 'folder.html'));
    expect([away.exit, away.err]).toEqual([1, expect.stringContaining('could not be written')]);
    expect((await typed('sheet', town)).exit).toBe(2);
  });

  test('what is wrong with the electrics is told, and stands on the sheet that is written all the same', async () => {
    const heavy = out('heavy.json');
    const layout = JSON.parse(readFileSync(town, 'utf8'));
    writeFileSync(heavy, JSON.stringify({ ...layout, electrics: { usual: { red: { milliamps: 60 } } } }));
    const file = out('heavy.html');
    const { exit, err, out: said } = await typed('sheet', heavy, '-o', file);
    expect([exit, said]).toEqual([1, expect.stringContaining('Wrote')]);
    expect(err).toContain('D2');
    expect(readFileSync(file, 'utf8')).toContain('To be mended in the plan before anything is soldered');
  });
});
