import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carryOver } from '../../shared/electrics/circuit/carry-over.ts';
import { outputsBehind } from '../../shared/electrics/circuit/wiring.ts';
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import { loadAt, TWO_HEADS } from './circuit-loads.ts';

const before = [2, 3, 4, 5].map((output, lamp) => loadAt(lamp, output));
/** The plan with the lamps on other outputs, in another order. */
const plan = (outputs: readonly number[], order = [0, 1, 2, 3]): Load[] =>
  order.map((old, lamp) => ({ ...loadAt(old, outputs[old] ?? 0), lamp }));

const swap = (lamp: number, other: number): WiringFault => ({ kind: 'swapped', lamp, with: other });

describe('faults while the plan changes', () => {
  test('a plan that follows the wires mends an exchange and leaves others', () => {
    expect(carryOver(before, [swap(0, 1), swap(2, 3)], plan([3, 2, 4, 5]))).toEqual([swap(2, 3)]);
  });

  test('a ring of three is mended by the plan that turns with it', () => {
    const ring = [swap(0, 1), swap(1, 2)];
    const ends = outputsBehind(before, ring);
    expect(carryOver(before, ring, plan([0, 1, 2, 3].map((lamp) => ends.get(lamp) ?? 0)))).toEqual([]);
  });

  test('faults stay with their lamps when numbers change, and go with a lamp that goes', () => {
    const turned = plan([2, 3, 4, 5], [3, 2, 1, 0]);
    const faults: WiringFault[] = [
      { kind: 'open', lamp: 0 },
      { kind: 'bridged', lamp: 0, with: 2 },
    ];
    expect(carryOver(before, faults, turned)).toEqual([
      { kind: 'open', lamp: 3 },
      { kind: 'bridged', lamp: 3, with: 1 },
    ]);
    expect(carryOver(before, faults, turned.slice(0, 3))).toEqual([]);
  });

  test('a fault at a head that is gone goes', () => {
    const shared = [loadAt(0, 2, {}, TWO_HEADS)];
    expect(carryOver(shared, [{ kind: 'open', lamp: 0, head: 1 }], [loadAt(0, 2)])).toEqual([]);
  });

  test('a wire that was soldered rightly follows the plan', () => {
    expect(carryOver(before, [{ kind: 'dim', lamp: 0 }], plan([9, 3, 4, 5]))).toEqual([{ kind: 'dim', lamp: 0 }]);
  });

  test('where the plan puts another lamp on an exchanged wire, both follow the plan', () => {
    const moved = plan([2, 8, 3, 5]);
    const kept = carryOver(before, [swap(0, 1)], moved);
    const ends = [...outputsBehind(moved, kept).values()];
    expect(new Set(ends).size).toBe(4);
  });

  test('whatever is exchanged and however the plan turns, each wire that stays in it ends where it was', () => {
    const shuffled = fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(3), fc.nat(3)), { maxLength: 5 }),
        shuffled,
        shuffled,
        (pairs, to, order) => {
          const faults = pairs.filter(([a, b]) => a !== b).map(([a, b]) => swap(a, b));
          const touched = new Set(faults.flatMap((fault) => ('with' in fault ? [fault.lamp, fault.with] : [])));
          // Only lamps that were exchanged move in the plan.
          const free = [...touched];
          const outputs = before.map(({ output }) => output);
          const taken = to.filter((lamp) => touched.has(lamp));
          free.forEach((lamp, index) => {
            outputs[lamp] = before[taken[index] ?? 0]?.output ?? 0;
          });
          const after = plan(outputs, order);
          const was = outputsBehind(before, faults);
          const is = outputsBehind(after, carryOver(before, faults, after));
          for (const [lamp, old] of order.entries()) expect(is.get(lamp)).toBe(was.get(old));
        },
      ),
      { numRuns: 300 },
    );
  });
});
