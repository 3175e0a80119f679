/** What was said on the line, as the person looks at it when something is wrong. */
import { signal } from '@preact/signals';
import { expect, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import { isTrouble } from '../../renderer/model/frames.ts';
import type { Sheet, Surface } from '../../renderer/model/surface.ts';
import { encodeEvent, encodeNo, encodeOk, encodeRequest } from '../../shared/link/line.ts';
import type { Frame } from '../../shared/workbench/contract.ts';
import { openBench, twoBoards } from './example.ts';

const frame = (number: number, text: string, sound = true): Frame => ({
  number,
  at: '2026-11-25T19:02:41.000Z',
  direction: text.startsWith('?') ? 'toBoard' : 'fromBoard',
  text: text.trimEnd(),
  meaning: 'What it says.',
  sound,
});

test('only trouble: noise, refusals, faults and gaps; the daily talk is left out', () => {
  expect(isTrouble(frame(1, encodeRequest(7, 'ping')))).toBe(false);
  expect(isTrouble(frame(2, encodeOk(7, [1234])))).toBe(false);
  expect(isTrouble(frame(3, encodeEvent(1, 'row', [1234, 0, 2])))).toBe(false);
  expect(isTrouble(frame(4, encodeNo(8, 3)))).toBe(true);
  expect(isTrouble(frame(5, encodeEvent(2, 'fault', [1234, 0, 1])))).toBe(true);
  expect(isTrouble(frame(6, encodeEvent(3, 'gap', [1234])))).toBe(true);
  expect(isTrouble(frame(7, 'x\\xF3 0 q', false))).toBe(true);
});

test('lines are read again and again, and only news is drawn', async () => {
  const { model, host } = await openBench();
  host.frames.set('town', [frame(1, encodeRequest(7, 'ping'))]);
  await model.frames.read('town');
  const first = model.frames.lines.value;
  expect(first.map(({ number }) => number)).toEqual([1]);
  await model.frames.read('town');
  expect(model.frames.lines.value).toBe(first);
  // The oldest has gone, a new one has come: as many as before, but not the same.
  host.frames.set('town', [frame(2, encodeOk(7, [1234]))]);
  await model.frames.read('town');
  expect(model.frames.lines.value.map(({ number }) => number)).toEqual([2]);
});

test('with two boards the lines of one are never shown for the other', async () => {
  const { model, host, settle } = await openBench(twoBoards());
  host.frames.set('town', [frame(1, encodeRequest(7, 'ping'))]);
  host.frames.set('harbour', [frame(1, encodeRequest(9, 'who'))]);
  await model.frames.read('town');
  host.stall = 'readFrames';
  void model.frames.read('town');
  void model.frames.read('harbour');
  expect(model.frames.lines.value).toEqual([]);
  host.release();
  await settle();
  expect(model.frames.lines.value.map(({ text }) => text.slice(0, 7))).toEqual(['?09 who']);
});

test('the report is shown over the lines, and closing it brings them back', async () => {
  const { model } = await openBench();
  const surface = { sheet: signal<Sheet>(null), under: signal<Sheet>(null) } as Surface;
  await commandById('frames-sheet').run(model, surface);
  await commandById('save-report').run(model, surface);
  expect(surface.sheet.value).toBe('report');
  await commandById('put-away').run(model, surface);
  expect(surface.sheet.value).toBe('frames');
  await commandById('put-away').run(model, surface);
  expect(surface.sheet.value).toBe(null);
});
