/** Faults to practise on, and the virtual layout as one would see it. */
import { expect, test } from 'vitest';
import { fits, KINDS, surprise } from '../../renderer/practise/faults.ts';
import { headText, seenLayout } from '../../renderer/practise/glow.ts';
import type { Glow } from '../../shared/electrics/model.ts';
import { seededDice, times } from '../fixtures/dice.ts';
import { openBench } from './example.ts';

test('surprises are as many as asked for, each on lamps of its own, and every kind comes up', async () => {
  const { model } = await openBench();
  const loads = model.check.loads('town');
  const kinds = new Set<string>();
  for (const seed of times(200, (at) => at + 1)) {
    const dice = seededDice(seed);
    const faults = surprise(loads, 5, () => dice.int(0, 999_999) / 1_000_000);
    expect(faults).toHaveLength(5);
    const lamps = faults.flatMap((fault) => ('with' in fault ? [fault.lamp, fault.with] : [fault.lamp]));
    expect(new Set(lamps).size).toBe(lamps.length);
    for (const { kind, lamp } of faults) {
      kinds.add(kind);
      const load = loads.find((it) => it.lamp === lamp);
      expect(load && fits(kind, load)).toBe(true);
    }
  }
  expect([...kinds].sort()).toEqual(KINDS.map(({ kind }) => kind).sort());
  expect(surprise(loads.slice(0, 2), 8, Math.random).length).toBeLessThanOrEqual(2);
});

test('heads are seen one by one, those on a shared output too', async () => {
  const { model } = await openBench();
  const loads = model.check.loads('town');
  const glow: Glow[][] = loads.map(({ heads }) => heads.map(() => 'dark'));
  glow[0] = ['lit', 'dark'];
  glow[1] = ['dim', 'bright'];
  const [market] = seenLayout(loads, glow);
  expect(market?.heads.map((head) => [head.name, headText(head)])).toEqual([
    ['Fore Street, from the east', 'red lit, amber dim'],
    ['Fore Street, from the west', 'amber too bright'],
    ['Quay Hill, from the north', 'dark'],
    ['Quay Hill, from the south', 'dark'],
  ]);
});
