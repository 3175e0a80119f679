/** A check from across the room: it steps by itself, lamps blink their numbers, then it is said which were not right. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { numbersIn } from '../../renderer/check/numbers.ts';
import { Walk } from '../../renderer/check/walk.ts';
import { openBench } from './example.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

const HARBOUR = { board: 'town', scope: { is: 'site', site: 'harbour-crossing' }, others: 'dark' } as const;

async function walking() {
  const all = await openBench();
  const { check } = all.model;
  const steps: boolean[] = [];
  const walk = new Walk(check, { seconds: () => 4, onStep: (isProven) => steps.push(isProven) });
  const lit = () =>
    all.host.calls.flatMap(({ name, args }) =>
      name === 'light' ? [(args as { lamp: number; forMs: number }).forMs] : [],
    );
  return { ...all, check, steps, walk, lit };
}

test('unproven lamps flash shortly for a beat each; after the last one it is asked', async () => {
  const { check, steps, walk, lit } = await walking();
  await check.begin(HARBOUR);
  check.phase.value = 'walking';
  walk.go();
  await vi.advanceTimersByTimeAsync(3900);
  expect([check.step.value?.label, steps]).toEqual(['Harbour side', [false]]);
  await vi.advanceTimersByTimeAsync(200);
  expect([check.step.value?.label, steps]).toEqual(['Shop side', [false, false]]);
  await vi.advanceTimersByTimeAsync(4000);
  expect(check.phase.value).toBe('marking');
  expect(new Set(lit())).toEqual(new Set([150]));
});

test('proven lamps blink their numbers, for as long as that takes twice', async () => {
  const { check, steps, walk, lit } = await walking();
  await check.begin(HARBOUR);
  for (const _ of [1, 2]) await check.answer({ result: 'right' });
  await check.begin(HARBOUR);
  check.phase.value = 'walking';
  const before = lit().length;
  walk.go();
  // The number 1 is one short flash and a pause: twice that is shorter than the beat.
  await vi.advanceTimersByTimeAsync(1399);
  expect(lit().slice(before)).toEqual([200]);
  await vi.advanceTimersByTimeAsync(3000);
  expect([check.step.value?.label, steps]).toEqual(['Shop side', [true, true]]);
  walk.stop();
  await vi.advanceTimersByTimeAsync(60_000);
  expect(check.step.value?.label).toBe('Shop side');
});

test('a lamp has its place among those of its site for a number', async () => {
  const { check } = await walking();
  const numbers = numbersIn(check.loads('town'));
  expect([0, 5, 6, 11, 12, 13].map((lamp) => numbers.get(lamp))).toEqual([1, 6, 1, 6, 1, 2]);
});
