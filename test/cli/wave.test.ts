import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { example, typed } from './typed.ts';

const penmarrow = example('penmarrow');
const street = ['--sites', 'market-cross,chapel-corner', '--speed', '30mph'];
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-wave-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('Fore Street from the places of its junctions: 720 mm at 1:76.2 are 54.9 m', async () => {
  const { exit, out } = await typed('wave', penmarrow, ...street, '--cycle', '60');
  expect(exit).toBe(0);
  const lines = out.split('\n');
  expect(lines[0]).toBe('Fore Street at 30.0 mph (48.3 km/h; 176 mm a second on the layout), cycle 60.0 s.');
  expect(lines[3]).toMatch(/^Chapel Corner {2}54\.9 m {2}25\.0 s/);
  expect(lines[4]).toBe('Band out 17.4 s (29 % of the cycle), back 17.4 s (29 %); 40 % and more is good.');
});

test('one way the whole green goes through: weights', async () => {
  const { json } = await typed('wave', penmarrow, ...street, '--cycle', '60', '--weights', '1,0', '--json');
  const { wave } = json();
  expect(wave.out.width).toBe(18);
});

test('distances of the user count instead of places, and phases of the user instead of the first', async () => {
  const words = ['--distances', '1524', '--phases', 'B,B', '--cycle', '60', '--json'];
  const { json } = await typed('wave', penmarrow, ...street, ...words);
  const { street: told } = json();
  expect(told.name).toBe('Quay Hill');
  expect(told.stops[1].distance).toBeCloseTo(116.1288, 4);
  // The last stage lasts until the cycle of 60 s is over: 12 s and 18 s to spare; 9 s and 16 s.
  expect(told.stops.map(({ out }: { out: { length: number } }) => out.length)).toEqual([30, 25]);
});

test('-o writes the layout with the common cycle and the offsets, which checks', async () => {
  const file = join(folder, 'wave.json');
  const { exit } = await typed('wave', penmarrow, ...street, '--cycle', '60', '-o', file);
  expect(exit).toBe(0);
  const { groups, sites } = JSON.parse(readFileSync(file, 'utf8'));
  expect(groups).toEqual([{ id: 'wave', name: 'Fore Street', board: 'town', cycle: 60 }]);
  expect(sites.map(({ group }: { group?: string }) => group)).toEqual(['wave', 'wave', undefined]);
  const check = await typed('check', file);
  expect(check.exit).toBe(0);
  // Done again on its own result it stays as it is, the cycle from the group.
  const again = join(folder, 'again.json');
  await typed('wave', file, ...street, '-o', again);
  expect(readFileSync(again, 'utf8')).toBe(readFileSync(file, 'utf8'));
});

test('a cycle too short for a junction ends with 1, and nothing is written', async () => {
  const file = join(folder, 'none.json');
  const { exit, err } = await typed('wave', penmarrow, ...street, '--cycle', '43', '-o', file);
  expect(exit).toBe(1);
  expect(err).toContain('Chapel Corner needs 44 s, and the cycle is 43 s.');
  expect(() => readFileSync(file)).toThrow();
});

test.each([
  ['no speed', ['--sites', 'market-cross,chapel-corner']],
  ['a speed without a unit', ['--sites', 'market-cross,chapel-corner', '--speed', '30']],
  ['a site that is not there', ['--sites', 'market-cross,quay', '--speed', '30mph']],
  ['one weight', [...street, '--weights', '1']],
  ['a weight below zero', [...street, '--weights', '1,-1']],
  ['distances that are none', [...street, '--distances', 'far']],
  ['a cycle that is none', [...street, '--cycle', 'round']],
])('%s ends with 2', async (_, words) => {
  expect((await typed('wave', penmarrow, ...words)).exit).toBe(2);
});

test.each([
  ['a crossing', ['--sites', 'market-cross,harbour-crossing', '--speed', '30mph']],
  ['one junction', ['--sites', 'market-cross', '--speed', '30mph']],
  ['too few distances', [...street, '--distances', '1,2']],
])('%s ends with 1', async (_, words) => {
  expect((await typed('wave', penmarrow, ...words)).exit).toBe(1);
});
