import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { example, typed } from './typed.ts';

const penmarrow = example('penmarrow');
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-split-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('greens of Market Cross by its traffic', async () => {
  const { exit, out, err } = await typed('split', penmarrow, '--site', 'market-cross', '--flows', '400,250');
  expect([exit, err]).toEqual([0, '']);
  expect(out).toBe(
    [
      'Market Cross: Y 0.361, lost time 10.0 s, optimum cycle 31.3 s.',
      'Greens for a cycle of 45.0 s:',
      'stage               y      by traffic  green',
      '1      Fore Street  0.222  20.5 s      21.0 s',
      '2      Quay Hill    0.139  12.5 s      12.0 s',
      '',
    ].join('\n'),
  );
});

test('saturation a stage and a lost time, by the name of the site: the published W1', async () => {
  const words = ['--flows', '400,250', '--saturation', '1250,1000', '--lost', '16', '--cycle', '67.5'];
  const { exit, json } = await typed('split', penmarrow, '--site', 'Market Cross', ...words, '--json');
  expect(exit).toBe(0);
  const { split } = json();
  expect(split.webster.total).toBeCloseTo(0.57, 9);
  expect(split.webster.optimum).toBeCloseTo(67.44, 2);
  expect(split.stages.map(({ effective }: { effective: number }) => Math.round(effective * 2) / 2)).toEqual([29, 22.5]);
});

test('-o writes the layout with the greens, which checks', async () => {
  const file = join(folder, 'split.json');
  const words = ['--site', 'market-cross', '--flows', '700,300', '--cycle', '60', '-o', file];
  const { exit, out } = await typed('split', penmarrow, ...words);
  expect(exit).toBe(0);
  expect(out).toContain(`Wrote ${file}.`);
  const before = JSON.parse(readFileSync(penmarrow, 'utf8'));
  const after = JSON.parse(readFileSync(file, 'utf8'));
  expect(after.sites[0].stages.map(({ green }: { green: number }) => green)).toEqual([34, 14]);
  before.sites[0].stages = after.sites[0].stages;
  expect(after).toEqual(before);
  expect((await typed('check', file)).exit).toBe(0);
});

test('what was bent is told on the side and is no failure', async () => {
  const words = ['--site', 'market-cross', '--flows', '1000,60', '--cycle', '30'];
  const { exit, err } = await typed('split', penmarrow, ...words);
  expect(exit).toBe(0);
  expect(err).toContain('note at sites[0].stages[1].green: Quay Hill would get 0.1 s by its traffic, and gets 7 s.');
});

test('too much traffic ends with 1, and nothing is written', async () => {
  const file = join(folder, 'none.json');
  const words = ['--site', 'market-cross', '--flows', '1000,900', '-o', file];
  const { exit, out, err } = await typed('split', penmarrow, ...words);
  expect([exit, out]).toEqual([1, '']);
  expect(err).toContain('more traffic than the junction takes');
  expect(() => readFileSync(file)).toThrow();
});

test('a folder that is not there is a failure, not a crash', async () => {
  const file = join(folder, 'no', 'such.json');
  const words = ['--site', 'market-cross', '--flows', '400,250', '-o', file];
  const { exit, err } = await typed('split', penmarrow, ...words);
  expect(exit).toBe(1);
  expect(err).toContain('could not be written');
});

test.each([
  ['no site', ['--flows', '400,250']],
  ['a site that is not there', ['--site', 'quay', '--flows', '400,250']],
  ['flows that are none', ['--site', 'market-cross', '--flows', '400,many']],
  ['an empty flow', ['--site', 'market-cross', '--flows', '400,']],
  ['three saturations for two stages', ['--site', 'market-cross', '--flows', '400,250', '--saturation', '1,2,3']],
  ['a lost time that is none', ['--site', 'market-cross', '--flows', '400,250', '--lost', 'some']],
  ['a cycle that is none', ['--site', 'market-cross', '--flows', '400,250', '--cycle', 'round']],
])('%s ends with 2', async (_, words) => {
  expect((await typed('split', penmarrow, ...words)).exit).toBe(2);
});
