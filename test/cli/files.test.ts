import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { decodeTable } from '../../shared/table/decode.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { example, typed } from './typed.ts';

const penmarrow = example('penmarrow');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Penmarrow with one piece of text replaced. */
function changed(name: string, from: string, to: string): string {
  const text = readFileSync(penmarrow, 'utf8');
  expect(text).toContain(from);
  const file = join(folder, name);
  writeFileSync(file, text.replace(from, to));
  return file;
}

describe('check', () => {
  test('finds nothing wrong with Penmarrow', async () => {
    const { exit, out, err } = await typed('check', penmarrow);
    expect(out).toContain('Penmarrow: nothing wrong.\nTown board: 3 sites, 14 lamps, 275 bytes');
    expect([exit, err]).toEqual([0, '']);
  });

  test('a pin used twice is told with its place, its cause and its cure, and ends with 1', async () => {
    const { exit, err } = await typed('check', changed('twice.json', '"pin": "D3"', '"pin": "D2"'));
    expect(exit).toBe(1);
    expect(err).toMatch(/^error at sites\[0\]\.phases\[0\]\.lamps\.amber.*: .*D2.*\n {2}\S.*\n {2}\S/);
  });

  test.each([
    ['a missing file', () => join(folder, 'none.json')],
    ['half a file', () => changed('half.json', '"boards": [', '')],
    ['another format', () => changed('format.json', 'amberwick-layout', 'shopping-list')],
  ])('%s ends with 2, with JSON as well as without', async (_, file) => {
    const plain = await typed('check', file());
    expect([plain.exit, plain.out]).toEqual([2, '']);
    expect(plain.err).not.toBe('');
    const json = await typed('check', file(), '--json');
    expect([json.exit, json.err]).toEqual([2, '']);
    expect(json.json()).toMatchObject({ ok: false });
    const { findings, problem } = json.json();
    expect(findings.length + (problem ? 1 : 0)).toBe(1);
  });

  test('a file of a newer version is read as far as it is understood, and that is told', async () => {
    const { exit, out, err } = await typed('check', changed('newer.json', '"version": 1', '"version": 99'));
    expect(exit).toBe(1);
    expect(out).toContain('Town board: 3 sites, 14 lamps');
    expect(err).toMatch(/^warning at version: The file has version 99; .*\n {2}\S.*\n {2}\S/);
  });

  test('with --json a finding has all its parts', async () => {
    const { exit, json } = await typed('check', changed('twice2.json', '"pin": "D3"', '"pin": "D2"'), '--json');
    expect(exit).toBe(1);
    const [finding] = json().findings;
    expect(Object.keys(finding).sort()).toEqual(['code', 'cure', 'path', 'severity', 'what', 'why']);
  });
});

describe('table', () => {
  test('shows every interval with lamps, dial, milliseconds and rule', async () => {
    const { exit, json } = await typed('table', penmarrow, '--site', 'market-cross', '--json');
    expect(exit).toBe(0);
    const [site] = json().sites;
    expect(site.name).toBe('Market Cross');
    expect(site.rows.map(({ label, ms }: { label: string; ms: number }) => [label, ms])).toEqual([
      ['Fore Street green', 18000],
      ['Fore Street amber', 3000],
      ['All red', 1000],
      ['Quay Hill red with amber', 2000],
      ['Quay Hill green', 12000],
      ['Quay Hill amber', 3000],
      ['All red', 1000],
      ['Fore Street red with amber', 2000],
    ]);
    expect(site.rows[3]).toMatchObject({
      rule: 'after the time',
      dial: 'Red with amber',
      lamps: {
        'Fore Street red': 'lit',
        'Fore Street amber': 'dark',
        'Fore Street green': 'dark',
        'Quay Hill red': 'lit',
        'Quay Hill amber': 'lit',
        'Quay Hill green': 'dark',
      },
    });
  });

  test('says the same in text', async () => {
    const { out } = await typed('table', penmarrow, '--site', 'Chapel Corner');
    expect(out).toContain('Chapel Corner (chapel-corner)');
    expect(out).toMatch(
      /3 {4}Chapel Lane green +9\.0 s +9000 ms +Green, Chapel Lane +after the time +Fore Street red, Chapel Lane green/,
    );
    expect(out).not.toContain('Market Cross');
  });

  test('a site that is not there names those that are', async () => {
    const { exit, err } = await typed('table', penmarrow, '--site', 'quay');
    expect(exit).toBe(2);
    expect(err).toContain('Its sites are market-cross, chapel-corner, harbour-crossing.');
  });
});

describe('image', () => {
  test('writes the bytes and tells what each part takes', async () => {
    const output = join(folder, 'town.bin');
    const { exit, json } = await typed('image', penmarrow, '-o', output, '--json');
    expect(exit).toBe(0);
    const bytes = new Uint8Array(readFileSync(output));
    const told = json();
    expect(told).toMatchObject({ board: 'town', slot: 480, used: bytes.length, free: 480 - bytes.length });
    expect(told.parts.reduce((sum: number, part: { bytes: number }) => sum + part.bytes, 0)).toBe(bytes.length);
    expect(Number.parseInt(told.crc, 16)).toBe(imageCrc(bytes));
    expect(decodeTable(bytes, 'atmega328p').table?.sites.length).toBe(3);
  });

  test('a folder that is not there is a failure, not a crash', async () => {
    const { exit, err } = await typed('image', penmarrow, '-o', join(folder, 'no', 'such', 'town.bin'));
    expect(exit).toBe(1);
    expect(err).toContain('could not be written');
  });
});

describe('the command itself', () => {
  test.each([
    ['an unknown command', ['frobnicate']],
    ['a missing file name', ['check']],
    ['a missing port', ['keep']],
    ['an unknown option', ['check', penmarrow, '--loud']],
    ['hours that are none', ['run', penmarrow, '--hours', 'many']],
    ['a time that is none', ['nudge', '--port', 'virtual', '0', '0', 'soon']],
    ['a name without a layout', ['nudge', '--port', 'virtual', 'market-cross', 'green-1', '18']],
  ])('%s ends with 2 and says so in JSON', async (_, words) => {
    expect((await typed(...words)).exit).toBe(2);
    const { exit, json } = await typed(...words, '--json');
    expect(exit).toBe(2);
    expect(json()).toMatchObject({ ok: false, problem: { what: expect.any(String), next: expect.any(String) } });
  });

  test('help is fine', async () => {
    const { exit, out } = await typed('--help');
    expect(exit).toBe(0);
    for (const command of ['check', 'table', 'image', 'run', 'ports', 'identify', 'send', 'nudge', 'keep', 'watch']) {
      expect(out).toContain(`  ${command} `);
    }
  });

  test('ports always knows the virtual board', async () => {
    const { exit, json } = await typed('ports', '--json');
    expect(exit).toBe(0);
    expect(json().ports.at(-1)).toMatchObject({ path: 'virtual', virtual: true });
  });

  test('a port that is not there is told with the next step', async () => {
    const { exit, err } = await typed('identify', '--port', '/dev/amberwick-none');
    expect(exit).toBe(1);
    expect(err).toContain('There is no board at /dev/amberwick-none.');
    expect(err).toContain('Plug the board in');
  });

  test('as a program of its own it works from another folder', () => {
    const program = new URL('../../scripts/amberwick.mjs', import.meta.url).pathname;
    const out = execFileSync(process.execPath, [program, 'check', penmarrow], { cwd: folder, encoding: 'utf8' });
    expect(out).toContain('Penmarrow: nothing wrong.');
    expect(spawnSync(process.execPath, [program, 'check', 'none.json'], { cwd: folder }).status).toBe(2);
  });
});
