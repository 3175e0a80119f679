/** A session log on the command line. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { keep, logOf, lost, nudge } from '../story/build.ts';
import { typed } from './typed.ts';

let folder: string;
let file: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-log-'));
  file = join(folder, '2026-11-30T19-00-00Z.jsonl');
  const entries = logOf(nudge(0, 18, 20), nudge(5, 20, 22), keep(60), [70, 'remark', 'Looks right.'], lost(80));
  writeFileSync(file, `${entries.map((entry) => JSON.stringify(entry)).join('\n')}\nhalf a li`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('is told as a story; damaged lines are counted', async () => {
  const { exit, out } = await typed('log', file);
  expect(exit).toBe(0);
  expect(out).toMatch(/^Session log of (Sunday 29|Monday 30|Tuesday 1) /);
  expect(out).toContain('Changed Market Cross green of Fore Street from 18.0 s to 22.0 s in two changes.');
  expect(out.trimEnd().endsWith('Left out: one damaged line.')).toBe(true);
});

test('only what is looked for, as a story, a table or lines', async () => {
  const notes = await typed('log', file, '--only', 'notes,trouble');
  expect(notes.out).toContain('Looks right.');
  expect(notes.out).toContain('broke off');
  expect(notes.out).not.toContain('in two changes');
  const table = await typed('log', file, '--search', 'fore 22', '--format', 'csv');
  expect(table.out.split('\r\n')[1]).toMatch(/^2026-11-30T19-00-00Z\.jsonl,1,/);
  expect(table.out.split('\r\n').filter((line) => line.trim() !== '')).toHaveLength(4);
  const out = join(folder, 'part.jsonl');
  expect((await typed('log', file, '--only', 'notes', '--format', 'jsonl', '-o', out)).exit).toBe(0);
  expect(
    readFileSync(out, 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line).number),
  ).toEqual([4]);
});

test.each([
  [['log', 'missing.jsonl'], 'This session cannot be read.'],
  [['log', new URL('../../package.json', import.meta.url).pathname], 'This session cannot be read.'],
])('%j ends with 2 and says why', async (args, what) => {
  const { exit, err } = await typed(...args);
  expect(exit).toBe(2);
  expect(err).toContain(what);
});

test('an unknown format or group is named, with those that there are', async () => {
  const format = await typed('log', file, '--format', 'pdf');
  expect([format.exit, format.err]).toEqual([2, expect.stringContaining('There is no format "pdf".')]);
  const group = await typed('log', file, '--only', 'times,weather');
  expect([group.exit, group.err]).toEqual([2, expect.stringContaining('There is no group "weather".')]);
});
