/** The check as it goes: order, scope, answers, taking back, leaving and coming back, what an answer is worth. */
import { expect, test } from 'vitest';
import {
  answer,
  beginCheck,
  countAnswered,
  goTo,
  isDone,
  lampsInScope,
  recordOf,
  resumeCheck,
  stepAt,
  takeBack,
} from '../../shared/lampcheck/check.ts';
import { inCheckOrder, lampsOfHead, lampText } from '../../shared/lampcheck/lamps.ts';
import { flashesFor, flashWords, isProven, lengthOf } from '../../shared/lampcheck/lit-time.ts';
import { mergeRecords, standingOf, timeOf } from '../../shared/lampcheck/record.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import { CheckRecord as Schema } from '../../shared/layout/check-record.ts';
import { seededDice, times } from '../fixtures/dice.ts';
import { minute, moved, someLoads } from './layouts.ts';

const start = (count = 6, before: CheckRecord | null = null) =>
  beginCheck(someLoads(count), { is: 'all' }, { board: 'town', by: 'Morwenna', now: minute(0), before });

test('lamps come site by site, head by head, and what belongs to no site comes last', () => {
  const loads = someLoads(24, ({ lamp }) =>
    lamp === 1 ? { site: null, siteName: 'Button', path: 'inputs[0].indicator' } : {},
  );
  const order = inCheckOrder([...loads].reverse()).map(({ lamp }) => lamp);
  expect(order).toEqual([0, 2, ...times(21, (at) => at + 3), 1]);
});

test('a railway signal is checked from its top lamp on', () => {
  const parts = ['red', 'yellow', 'green', 'upperYellow'];
  const loads = someLoads(4, ({ lamp }) => ({ path: `sites[0].lamps.${parts[lamp]}` }));
  expect(inCheckOrder(loads).map(({ path }) => path.split('.').at(-1))).toEqual([
    'upperYellow',
    'green',
    'yellow',
    'red',
  ]);
  expect(lampsOfHead(loads, loads[0] ?? fail())).toHaveLength(4);
});

function fail(): never {
  throw new Error('no lamp');
}

test('answers go on to the next lamp without one; taking back asks again', () => {
  let check = start(3);
  check = answer(check, { result: 'right' }, minute(1));
  check = answer(check, { result: 'dark' }, minute(2));
  expect([stepAt(check)?.lamp, countAnswered(check), isDone(check)]).toEqual([2, 2, false]);
  check = takeBack(check);
  expect([stepAt(check)?.lamp, countAnswered(check)]).toEqual([1, 1]);
  check = answer(check, { result: 'right' }, minute(3));
  check = answer(check, { result: 'right' }, minute(4));
  expect([stepAt(check), isDone(check)]).toEqual([null, true]);
  expect(takeBack(takeBack(takeBack(takeBack(check)))).answers.size).toBe(0);
});

test('one may go back to a lamp and answer it anew', () => {
  let check = start(3);
  for (const at of [1, 2, 3]) check = answer(check, { result: 'dark' }, minute(at));
  check = answer(goTo(check, 1), { result: 'right' }, minute(4));
  expect(stepAt(check)).toBe(null);
  expect(recordOf(check).lamps.map(({ result }) => result)).toEqual(['dark', 'right', 'dark']);
});

test('however one goes back and forth, leaves and comes back, the last answer for each lamp is the one in the record', () => {
  const results = ['right', 'dark', 'dim'] as const;
  for (const seed of times(60, (at) => at + 1)) {
    const dice = seededDice(seed);
    let check = start(dice.int(1, 8));
    /** Answers as a person would remember them, and what was before each. */
    let told = new Map<number, string>();
    let past: Map<number, string>[] = [];
    for (const at of times(30, (n) => n + 1)) {
      const load = stepAt(check);
      const act = dice.int(0, 9);
      if (act < 6 && load) {
        const result = results[dice.int(0, 2)] ?? 'right';
        past.push(told);
        told = new Map(told).set(load.lamp, result);
        check = answer(check, { result }, minute(at));
      } else if (act === 6) check = goTo(check, dice.int(0, check.steps.length - 1));
      else if (act === 7) {
        check = takeBack(check);
        told = past.pop() ?? told;
      } else {
        check = resumeCheck(check.loads, { is: 'all' }, JSON.parse(JSON.stringify(recordOf(check))));
        // What was answered before a break is not taken back one by one any more.
        past = [];
      }
      const record = recordOf(check);
      expect(
        new Map(record.lamps.map(({ output, result }) => [Number(output.slice(1)) - 2, result])),
        `seed ${seed}`,
      ).toEqual(told);
      expect(isDone(check)).toBe(told.size === check.steps.length);
      expect(countAnswered(check)).toBe(told.size);
      const asked = stepAt(check);
      if (asked === null) expect(isDone(check)).toBe(true);
    }
  }
});

test('who points at the lamp itself has seen it light', () => {
  let check = start(3);
  check = answer(check, { result: 'wrong', saw: check.loads.slice(0, 1) }, minute(1));
  check = answer(check, { result: 'wrong', saw: check.loads.slice(1, 3) }, minute(2));
  expect(recordOf(check).lamps.map(({ result }) => result)).toEqual(['right', 'two']);
});

test('the record says who, when and what, as the schema has it', () => {
  let check = start(2);
  check = answer(check, { result: 'wrong', saw: check.loads.slice(1) }, minute(1));
  check = answer(check, { result: 'dark', note: 'Only one head.' }, minute(2));
  const record = recordOf(check, minute(3));
  expect(Schema.parse(record)).toEqual({
    board: 'town',
    by: 'Morwenna',
    began: minute(0),
    ended: minute(3),
    lamps: [
      {
        site: 'site-0',
        label: 'Head 0',
        colour: 'red',
        output: 'D2',
        result: 'wrong',
        at: minute(1),
        saw: [{ site: 'site-0', label: 'Head 0', colour: 'amber' }],
      },
      {
        site: 'site-0',
        label: 'Head 0',
        colour: 'amber',
        output: 'D3',
        result: 'dark',
        at: minute(2),
        note: 'Only one head.',
      },
    ],
  });
});

test('a check that was left goes on where it was', () => {
  let check = start(6);
  for (const at of [1, 2, 3]) check = answer(check, { result: at === 2 ? 'dark' : 'right' }, minute(at));
  const again = resumeCheck(someLoads(6), { is: 'all' }, JSON.parse(JSON.stringify(recordOf(check))));
  expect([stepAt(again)?.lamp, countAnswered(again), again.by]).toEqual([3, 3, 'Morwenna']);
  expect(recordOf(again)).toEqual(recordOf(check));
});

test('after a re-plan the answers of moved lamps count no more', () => {
  let check = start(3);
  for (const at of [1, 2, 3]) check = answer(check, { result: 'right' }, minute(at));
  const record = recordOf(check, minute(4));
  const [first, second] = check.loads;
  const after = moved(
    check.loads,
    new Map([
      [first?.path ?? '', 3],
      [second?.path ?? '', 2],
    ]),
  );
  expect(after.map((load) => standingOf(after, load, record))).toEqual(['changed', 'changed', 'right']);
  expect(lampsInScope(after, { is: 'open' }, record).map(({ lamp }) => lamp)).toEqual([0, 1]);
  const resumed = resumeCheck(after, { is: 'all' }, record);
  expect(countAnswered(resumed)).toBe(1);
});

test('a check of one site keeps what is known of the others', () => {
  let whole = start(15);
  for (let at = 1; stepAt(whole); at += 1) whole = answer(whole, { result: 'right' }, minute(at));
  let one = beginCheck(
    someLoads(15),
    { is: 'site', site: 'site-1' },
    { board: 'town', now: minute(60), before: recordOf(whole) },
  );
  expect(one.steps.map(({ lamp }) => lamp)).toEqual([12, 13, 14]);
  one = answer(one, { result: 'dim' }, minute(61));
  const record = recordOf(one, minute(62));
  expect(record.lamps).toHaveLength(15);
  expect(record.lamps.filter(({ result }) => result === 'dim').map(({ at }) => at)).toEqual([minute(61)]);
});

test('of two records the later answer of each lamp counts, whichever is given first', () => {
  const dice = seededDice(7);
  for (const _ of times(50, (at) => at)) {
    let [one, other] = [start(8), { ...start(8), began: minute(100) }];
    for (const at of times(dice.int(1, 8), (n) => n)) one = answer(one, { result: 'dark' }, minute(1 + at));
    for (const at of times(dice.int(1, 8), (n) => n)) other = answer(other, { result: 'right' }, minute(101 + at));
    const merged = mergeRecords(recordOf(one), recordOf(other));
    const flipped = mergeRecords(recordOf(other), recordOf(one));
    expect(flipped).toEqual(merged);
    const rights = other.answers.size;
    const darks = Math.max(0, one.answers.size - rights);
    expect(merged?.lamps.map(({ result }) => result).sort()).toEqual([
      ...times(darks, () => 'dark'),
      ...times(rights, () => 'right'),
    ]);
    expect(merged?.began).toBe(minute(100));
  }
});

test('two lamps of one name are told apart by their outputs', () => {
  const loads = someLoads(2, () => ({ label: 'Lamp', colour: 'red' }));
  let check = beginCheck(loads, { is: 'all' }, { board: 'town', now: minute(0), before: null });
  check = answer(check, { result: 'right' }, minute(1));
  check = answer(check, { result: 'dark' }, minute(2));
  const record = recordOf(check);
  expect(loads.map((load) => standingOf(loads, load, record))).toEqual(['right', 'dark']);
});

test('times are read as the clock of the machine reads them', () => {
  const dice = seededDice(3);
  for (const _ of times(300, (at) => at)) {
    const ms = dice.int(0, 2_000_000) * 1_000_003 + dice.int(0, 999);
    expect(timeOf(new Date(ms).toISOString())).toBe(ms);
  }
  expect(timeOf('2024-02-29T23:30:00+01:00')).toBe(Date.UTC(2024, 1, 29, 22, 30));
  expect(timeOf('2026-11-25T17:53-05:30')).toBe(Date.UTC(2026, 10, 25, 23, 23));
  expect(timeOf('yesterday')).toBe(Number.NaN);
});

test('only what is known not to be shorted is lit steadily', () => {
  let check = start(3);
  for (const result of ['right', 'dark', 'dim'] as const) check = answer(check, { result }, minute(1));
  const record = recordOf(check);
  expect(check.loads.map((load) => isProven(check.loads, load, record))).toEqual([true, false, false]);
  expect(check.loads.map((load) => isProven(check.loads, load, null, new Set([3])))).toEqual([false, true, false]);
  const after = moved(check.loads, new Map([[check.loads[0]?.path ?? '', 20]]));
  expect(after.map((load) => isProven(after, load, record))).toEqual([false, false, false]);
});

test('numbers are flashed so that they can be counted', () => {
  expect(flashesFor(12).map(({ lit }) => lit)).toEqual([700, 200, 200]);
  expect([flashWords(12), flashWords(30), flashWords(7), flashWords(0)]).toEqual([
    '1 long, 2 short',
    '3 long',
    '7 short',
    '1 very long',
  ]);
  const seen = new Set(times(100, (number) => JSON.stringify(flashesFor(number))));
  expect(seen.size).toBe(100);
  expect(lengthOf(1)).toBe(2 * (200 + 1200));
});

test('a lamp is spoken of without saying a name twice', () => {
  const [load] = someLoads(1);
  expect(load && lampText(load)).toBe('Site 0, Head 0, red');
  expect(lampText({ siteName: 'Quay', label: 'Quay', colour: '' })).toBe('Quay');
});
