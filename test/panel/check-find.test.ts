/** Finding forgotten wires as a person at the panel does it, on a host that answers at once. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { findOf } from '../../renderer/find/find.ts';
import { openBench } from './example.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
});

async function bench() {
  const all = await openBench();
  const find = findOf(all.model);
  let seen = 0;
  /** What was asked to light since the last look. */
  const lit = (): string[] => {
    const calls = all.host.calls.filter(({ name }) => name === 'light' || name === 'pulse');
    const news = calls.slice(seen);
    seen = calls.length;
    return news.map(({ name, args }) => {
      const { lamp, output, high, forMs } = args as Record<string, number>;
      return name === 'light' ? `lamp ${lamp} for ${forMs}` : `output ${output} ${high ? 'high' : 'low'} for ${forMs}`;
    });
  };
  return { ...all, find, lit };
}

const RED = 'sites[0].phases[0].lamps.red';

test('free outputs are lit both ways, those of the plan as planned, in flashes again and again', async () => {
  const { find, lit, model, settle } = await bench();
  await find.begin(true);
  expect(model.board('town').state.value.checking).toBe(true);
  // D13 and A3 to A5 are free.
  expect(find.tries.value.map(({ name }) => name)).toEqual([
    ...['D2', 'D3', 'D4', 'D5', 'D6', 'D7', 'D8', 'D9', 'D10', 'D11', 'D12'],
    ...['D13', 'A0', 'A1', 'A2', 'A3', 'A4', 'A5'],
  ]);
  await settle();
  expect(lit()).toEqual(['lamp 0 for 150']);
  await vi.advanceTimersByTimeAsync(1000);
  expect(lit()).toEqual(['lamp 0 for 150']);
  while (find.now?.name !== 'A3') find.nothing();
  await settle();
  expect(lit().at(-1)).toBe('output 17 high for 150');
  find.nothing();
  await settle();
  expect([find.now?.name, lit().at(-1)]).toEqual(['A3', 'output 17 low for 150']);
  find.nothing();
  expect(find.now?.name).toBe('A4');
  await find.leave();
  expect(model.board('town').state.value.checking).toBe(false);
  await vi.advanceTimersByTimeAsync(3000);
  lit();
  await vi.advanceTimersByTimeAsync(3000);
  expect(lit()).toEqual([]);
});

test('what was seen goes into the plan in one step, is checked, and gone again with undo', async () => {
  const { find, model, host } = await bench();
  model.preferences.checker.value = 'Jory';
  const before = model.text.value;
  await find.begin(false);
  find.point(null, 'shop window');
  find.nothing();
  find.point(RED);
  await find.finish();
  expect(find.found.value).toMatchObject([
    { output: 13, path: null, note: 'shop window' },
    { output: 17, path: RED, activeLow: true },
  ]);
  expect(await find.take()).toBe(true);
  const [cross] = model.open.value.layout?.sites ?? [];
  expect(cross?.kind === 'junction' && cross.phases[0]?.lamps?.red).toEqual({ pin: 'A3', activeLow: true });
  expect(host.boards[0]?.state.check).toMatchObject({
    by: 'Jory',
    lamps: [{ label: 'Fore Street', colour: 'red', output: 'A3', result: 'right' }],
  });
  expect(model.log.value.some(({ text }) => text.startsWith('Found the wires of 1 lamp on Town board'))).toBe(true);
  await model.history.undo();
  expect(model.text.value).toBe(before);
});

test('one may go back; the answer there is forgotten', async () => {
  const { find } = await bench();
  await find.begin(false);
  find.point(RED);
  find.back();
  expect([find.now?.name, find.found.value]).toEqual(['D13', []]);
});

test('an output that the board itself uses is left alone', async () => {
  const { find, host, model, settle } = await bench();
  host.refuseNext = { name: 'pulse', code: 'outputNotFree', what: 'D13 is not free.' };
  await find.begin(false);
  await settle();
  expect([find.now?.name, model.trouble.value]).toEqual(['A3', null]);
});
