/** The lamp check as a person at the panel walks it, on a host that answers at once. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { scopeFrom, scopeText } from '../../renderer/model/check-parts.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { openBench, twoBoards } from './example.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

async function bench(text?: string) {
  const all = await openBench(text);
  const { check } = all.model;
  /** What was asked to light since the last look. */
  let seen = 0;
  const lit = (): [number | null, number][] => {
    const calls = all.host.calls
      .filter(({ name }) => name === 'light')
      .map(({ args }) => args as { lamp: number | null; forMs: number });
    const news = calls.slice(seen).map(({ lamp, forMs }): [number | null, number] => [lamp, forMs]);
    seen = calls.length;
    return news;
  };
  const loads = check.loads('town');
  const lamp = (number: number): Load => loads.find((it) => it.lamp === number) ?? fail();
  /** Answers for a layout in which the outputs of some lamps are exchanged, and some lamps are dead. */
  const look = async (wires: Readonly<Record<number, number>>, dead: readonly number[] = []): Promise<void> => {
    for (let step = check.step.peek(); step && check.check.peek(); step = check.step.peek()) {
      const really = wires[step.lamp] ?? step.lamp;
      if (dead.includes(really)) await check.answer({ result: 'dark' });
      else if (really === step.lamp) await check.answer({ result: 'right' });
      else await check.answer({ result: 'wrong', saw: [lamp(really)] });
    }
  };
  return { ...all, check, lit, lamp, look, logged: () => all.model.log.value.map(({ text: line }) => line) };
}

function fail(): never {
  throw new Error('not there');
}

const ALL = { board: 'town', scope: { is: 'all' }, others: 'dark' } as const;

test('a lamp of which nothing is known is lit in short flashes, one a second; a proven one steadily', async () => {
  const { check, lit, model } = await bench();
  expect(await check.begin(ALL)).toBe(true);
  expect(lit()).toEqual([[0, 150]]);
  await vi.advanceTimersByTimeAsync(2000);
  expect(lit()).toEqual([
    [0, 150],
    [0, 150],
  ]);
  await check.answer({ result: 'right' });
  expect(lit()).toEqual([[1, 150]]);
  await check.ask(0);
  expect(check.isProven(check.step.value ?? fail())).toBe(true);
  expect(lit()).toEqual([[0, 0]]);
  await vi.advanceTimersByTimeAsync(3000);
  expect(lit()).toEqual([]);
  await check.leave();
  expect(model.board('town').state.value.checking).toBe(false);
});

test('each answer is noted at once, with its place in words', async () => {
  const { check, host, lamp, logged } = await bench();
  await check.begin(ALL);
  await check.answer({ result: 'right' });
  await check.answer({ result: 'wrong', saw: [lamp(4)] });
  await check.answer({ result: 'dark', note: 'Only one lit.' });
  expect(logged().slice(-3)).toEqual([
    'Checked Market Cross, Fore Street, red at D2: right.',
    'Checked Market Cross, Fore Street, amber at D3: Market Cross, Quay Hill, amber lit instead.',
    'Checked Market Cross, Fore Street, green at D4: stayed dark.',
  ]);
  expect(host.boards[0]?.state.check?.lamps).toHaveLength(3);
  expect(host.boards[0]?.state.check?.ended).toBe(undefined);
});

test('"wrong" without a lamp waits until somebody points; the lamp stays lit', async () => {
  const { check, lit, lamp } = await bench();
  await check.begin(ALL);
  lit();
  await check.answer({ result: 'wrong' });
  expect(check.phase.value).toBe('pointing');
  expect(lit()).toEqual([]);
  await check.answer({ result: 'wrong', saw: [lamp(1)] });
  expect([check.phase.value, check.step.value?.lamp]).toEqual(['asking', 1]);
});

test('a check that was left is gone on with, by another panel too', async () => {
  const { check, model, host } = await bench();
  model.preferences.checker.value = 'Morwenna';
  await check.begin({ ...ALL, scope: { is: 'site', site: 'market-cross' } });
  await check.answer({ result: 'right' });
  await check.answer({ result: 'right' });
  await check.leave();
  expect(check.unfinished('town')?.by).toBe('Morwenna');
  expect(await check.resume('town', 'dark')).toBe(true);
  expect([check.step.value?.lamp, check.check.value?.steps.length]).toEqual([2, 6]);
  await check.leave();
  // Another computer knows nothing of its scope: it asks for everything.
  model.preferences.checkScope.value = '';
  await check.resume('town', 'dark');
  expect([check.step.value?.lamp, check.check.value?.steps.length]).toEqual([2, 14]);
  expect(host.boards[0]?.state.check?.lamps).toHaveLength(2);
});

test('three exchanged pairs and a dead lamp: found, put right in the plan, sent, and right at the second check', async () => {
  const { check, model, look, logged } = await bench();
  await check.begin(ALL);
  await look({ 0: 3, 3: 0, 1: 4, 4: 1, 12: 13, 13: 12 }, [7]);
  expect(check.phase.value).toBe('summary');
  expect(logged().slice(-2)).toEqual([
    'Finished the lamp check of Town board: 7 right, 1 dark, 6 wrong.',
    'Wrote the lamp check of Town board into the layout.',
  ]);
  expect(check.diagnosis('town').swaps).toHaveLength(3);
  const before = model.text.value ?? '';
  expect(parseLayout(before).layout?.checks?.[0]?.lamps).toHaveLength(14);
  expect(await check.replan('town')).toBe(true);
  const { layout } = model.open.value;
  const [cross] = layout?.sites ?? [];
  if (cross?.kind !== 'junction') throw new Error('no junction');
  expect([cross.phases[0]?.lamps?.red?.pin, cross.phases[1]?.lamps?.red?.pin]).toEqual(['D5', 'D2']);
  expect(check.diagnosis('town').swaps).toEqual([]);
  await model.ask('send', { board: 'town' });
  await check.begin({ ...ALL, scope: { is: 'open' } });
  expect(check.check.value?.steps.map(({ lamp: number }) => number)).toEqual([0, 1, 3, 4, 7, 12, 13]);
  await look({}, [7]);
  expect(logged().at(-2)).toBe('Finished the lamp check of Town board: 6 right, 1 dark.');
  const record = check.record('town');
  expect(record?.lamps.filter(({ result }) => result === 'right')).toHaveLength(13);
  // One step back each: the record of the second check, the re-plan, the record of the first.
  await model.history.undo();
  await model.history.undo();
  expect(model.text.value).toBe(before);
});

test('answers can be taken back, in the record too', async () => {
  const { check, host } = await bench();
  await check.begin(ALL);
  await check.answer({ result: 'dark' });
  await check.takeBack();
  expect([check.step.value?.lamp, host.boards[0]?.state.check?.lamps]).toEqual([0, []]);
});

test('after a walk the others are right at once, and only the named ones are asked for', async () => {
  const { check } = await bench();
  await check.begin({ ...ALL, scope: { is: 'site', site: 'market-cross' } });
  const steps = check.check.value?.steps ?? [];
  await check.allRight(steps.filter(({ lamp }) => lamp !== 4));
  expect([check.phase.value, check.step.value?.lamp]).toEqual(['asking', 4]);
  await check.answer({ result: 'dim' });
  expect(check.phase.value).toBe('summary');
});

test('when the board lets go the check stands, and goes on from there', async () => {
  const { check, host, lit } = await bench();
  await check.begin(ALL);
  await check.answer({ result: 'right' });
  host.boards[0]?.become({ checking: false });
  expect(check.phase.value).toBe('broken');
  lit();
  await vi.advanceTimersByTimeAsync(3000);
  expect(lit()).toEqual([]);
  expect(await check.goOn()).toBe(true);
  expect([check.phase.value, check.step.value?.lamp]).toEqual(['asking', 1]);
});

test('nothing goes on flashing when the board does not take it', async () => {
  const { check, host, lit, model } = await bench();
  await check.begin(ALL);
  host.refuseNext = { name: 'light', code: 'cannotTimeLamps', what: 'The board cannot light a lamp for a short time.' };
  await check.ask(1);
  lit();
  await vi.advanceTimersByTimeAsync(3000);
  expect(lit()).toEqual([]);
  expect(model.trouble.value?.problem.code).toBe('cannotTimeLamps');
});

test('boards are checked one by one', async () => {
  const { check } = await bench(twoBoards());
  expect([check.loads('town').length, check.loads('harbour').length]).toEqual([12, 2]);
  expect(await check.begin({ ...ALL, scope: { is: 'site', site: 'harbour-crossing' } })).toBe(false);
});

test('what was kept of a scope is taken only when it is one', () => {
  const began = '2026-11-20T19:00:00.000Z';
  const scope = { is: 'site', site: 'market-cross' } as const;
  expect(scopeFrom(scopeText(began, scope), { began })).toEqual(scope);
  expect(scopeFrom(scopeText(began, scope), { began: '2026-11-21T19:00:00.000Z' })).toEqual({ is: 'all' });
  for (const text of ['', 'null', '{', JSON.stringify({ began, scope: { is: 'moon' } }), JSON.stringify({ began })]) {
    expect(scopeFrom(text, { began })).toEqual({ is: 'all' });
  }
});
