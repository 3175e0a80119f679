/** Exchanged wires of any kind, an honest person, and one re-plan: then everything is right but what is broken. */
import { expect, test } from 'vitest';
import type { Load } from '../../shared/electrics/model.ts';
import { answer, beginCheck, type Check, recordOf, stepAt } from '../../shared/lampcheck/check.ts';
import { diagnose } from '../../shared/lampcheck/diagnose.ts';
import { standingOf } from '../../shared/lampcheck/record.ts';
import { mendsOf, repairsOf, replan, resistorsToLookAt } from '../../shared/lampcheck/replan.ts';
import { type Dice, seededDice, shuffled, times } from '../fixtures/dice.ts';
import { honest, minute, moved, planned, someLoads, type Wires } from './layouts.ts';

function walk(check: Check, wires: Wires, from = 1): Check {
  let at = from;
  for (let load = stepAt(check); load; load = stepAt(check)) {
    check = answer(check, honest(check.loads, load, wires), minute(at));
    at += 1;
  }
  return check;
}

function checked(loads: readonly Load[], wires: Wires): Check {
  return walk(beginCheck(loads, { is: 'all' }, { board: 'town', now: minute(0), before: null }), wires);
}

/** The wires of some outputs exchanged at random, some lamps without a wire. */
function muddle(dice: Dice, loads: readonly Load[], exchanged: number, broken: number): Wires {
  const wires = planned(loads);
  const outputs = shuffled(
    dice,
    loads.map(({ output }) => output),
  ).slice(0, exchanged);
  const hang = shuffled(dice, outputs).map((output) => wires.get(output) ?? []);
  for (const [at, output] of outputs.entries()) wires.set(output, hang[at] ?? []);
  const gone = new Set(
    shuffled(
      dice,
      loads.map(({ lamp }) => lamp),
    ).slice(0, broken),
  );
  return new Map([...wires].map(([output, lamps]) => [output, lamps.filter((lamp) => !gone.has(lamp))]));
}

const RUNS = Number(process.env.AMBERWICK_RUNS ?? 400);

test('any exchange with any broken wires is put right by one re-plan', () => {
  let rounds = 0;
  let open = 0;
  for (const seed of times(RUNS, (at) => at + 1)) {
    const dice = seededDice(seed);
    const loads = someLoads(dice.int(2, 40));
    const wires = muddle(dice, loads, dice.int(0, loads.length), dice.int(0, 3));
    const first = checked(loads, wires);
    const found = diagnose(first.loads, first.answers);
    expect(found.doubts, `seed ${seed}`).toEqual([]);
    expect(found.needed).toEqual([]);
    rounds += found.swaps.filter(({ missing }) => missing === null).length;
    open += found.swaps.filter(({ missing }) => missing !== null).length;
    const after = moved(loads, replan(found));
    expect(new Set(after.map(({ output }) => output)).size, 'each lamp has an output of its own').toBe(loads.length);

    // What is not right, or has another output now, is checked once more.
    const second = walk(
      beginCheck(after, { is: 'open' }, { board: 'town', now: minute(100), before: recordOf(first, minute(60)) }),
      wires,
      101,
    );
    const record = recordOf(second, minute(200));
    const alive = new Set([...wires.values()].flat());
    const standings = after.map((load) => [load.lamp, standingOf(after, load, record)]);
    expect(standings, `seed ${seed}`).toEqual(after.map(({ lamp }) => [lamp, alive.has(lamp) ? 'right' : 'dark']));
  }
  // The runs met rounds of both kinds.
  expect(rounds).toBeGreaterThan(RUNS / 4);
  expect(open).toBeGreaterThan(RUNS / 8);
});

test('whatever touches, breaks or is exchanged: no lamp is moved to an output that does not light it alone', () => {
  let moves = 0;
  for (const seed of times(RUNS, (at) => at + 1)) {
    const dice = seededDice(seed);
    const loads = someLoads(dice.int(3, 30));
    const wires = new Map(muddle(dice, loads, dice.int(0, loads.length), dice.int(0, 2)));
    // Wires that touch: both outputs light what hangs on either.
    for (const _ of times(dice.int(0, 3), () => 0)) {
      const [one, other] = shuffled(dice, [...wires.keys()]);
      if (one === undefined || other === undefined) continue;
      const both = [...new Set([...(wires.get(one) ?? []), ...(wires.get(other) ?? [])])];
      wires.set(one, both).set(other, both);
    }
    const found = diagnose(loads, checked(loads, wires).answers);
    for (const { moves: round, missing } of found.swaps) {
      for (const { lamp, at } of round) expect(wires.get(at.output), `seed ${seed}`).toEqual([lamp.lamp]);
      if (missing) expect([...wires.values()].flat()).not.toContain(missing.lamp);
      moves += round.length;
    }
    const after = moved(loads, replan(found));
    expect(new Set(after.map(({ output }) => output)).size).toBe(loads.length);
  }
  expect(moves).toBeGreaterThan(RUNS);
});

test('a plain swap and a round of three are told apart, with the output that each lamp gets', () => {
  const loads = someLoads(9);
  const wires = planned(loads);
  for (const [output, lamp] of [
    [2, 1],
    [3, 0],
    [5, 4],
    [6, 5],
    [7, 3],
  ] as const)
    wires.set(output, [lamp]);
  const found = diagnose(loads, checked(loads, wires).answers);
  expect(found.swaps.map(({ moves }) => moves.map(({ lamp, at }) => [lamp.lamp, at.outputName]))).toEqual([
    [
      [1, 'D2'],
      [0, 'D3'],
    ],
    [
      [4, 'D5'],
      [5, 'D6'],
      [3, 'D7'],
    ],
  ]);
  expect(found.right.map(({ lamp }) => lamp)).toEqual([2, 6, 7, 8]);
  expect(repairsOf(found)).toEqual([]);
  expect(repairsOf(found, true).map(({ cure }) => cure)).toEqual([
    'The yellow wire at D2 belongs on D3.',
    'The red wire at D3 belongs on D2.',
    'The yellow wire at D5 belongs on D6.',
    'The green wire at D6 belongs on D7.',
    'The red wire at D7 belongs on D5.',
  ]);
});

test('an exchange with an open wire gives the missing lamp the output that is left', () => {
  const loads = someLoads(3);
  const wires = new Map([
    [2, [1]],
    [3, []],
    [4, [2]],
  ]);
  const found = diagnose(loads, checked(loads, wires).answers);
  expect(found.swaps).toMatchObject([{ missing: { lamp: 0 } }]);
  expect([...replan(found)]).toEqual([
    ['sites[0].heads[0].lamps.amber', 2],
    ['sites[0].heads[0].lamps.red', 3],
  ]);
  expect(repairsOf(found).map(({ what }) => what)).toEqual(['Site 0, Head 0, amber at D3 stays dark.']);
});

test('lamps of different kinds cannot change places in the plan', () => {
  const swap = new Map([
    [2, [1]],
    [3, [0]],
  ]);
  const kinds: [(load: Load) => Partial<Load>, RegExp][] = [
    [({ lamp }) => ({ activeLow: lamp === 1 }), /high and some when it is low/],
    [
      ({ lamp, circuit }) => ({ circuit: { ...circuit, driver: lamp === 1 ? 'transistor' : 'direct' } }),
      /behind a driver/,
    ],
    [
      ({ lamp, circuit }) => ({ circuit: { ...circuit, driver: 'transistor', volts: lamp === 1 ? 12 : 5 } }),
      /voltages/,
    ],
  ];
  for (const [change, why] of kinds) {
    const loads = someLoads(2, change);
    const found = diagnose(loads, checked(loads, swap).answers);
    expect(mendsOf(found).map(({ obstacle }) => obstacle)).toEqual([expect.stringMatching(why)]);
    expect(replan(found).size).toBe(0);
    expect(repairsOf(found)).toHaveLength(2);
  }
});

test('resistors that differ are spoken of', () => {
  const loads = someLoads(2, ({ lamp, circuit }) => ({ circuit: { ...circuit, resistor: lamp === 1 ? 220 : 390 } }));
  const [swap] = diagnose(
    loads,
    checked(
      loads,
      new Map([
        [2, [1]],
        [3, [0]],
      ]),
    ).answers,
  ).swaps;
  expect(swap && resistorsToLookAt(swap)).toMatch(/resistors of these lamps differ/);
});

test('wrong pointing shows: two outputs that are said to light one lamp are asked again, and nothing of theirs moves', () => {
  const loads = someLoads(6);
  const wires = planned(loads);
  wires.set(2, [1]);
  wires.set(3, [0]);
  let check = beginCheck(loads, { is: 'all' }, { board: 'town', now: minute(0), before: null });
  // The first lamp: it was the amber one that lit, and the green one was pointed at.
  check = answer(check, { result: 'wrong', saw: loads.slice(2, 3) }, minute(1));
  check = walk(check, wires, 2);
  const found = diagnose(loads, check.answers);
  expect(found.doubts.map(({ lamps }) => lamps.map(({ lamp }) => lamp))).toEqual([[0, 2]]);
  expect(found.doubts[0]?.why).toBe(
    'By the answers D2 and D4 light the same lamp (Head 0, green). One answer may be a slip; if they stay so, two wires touch.',
  );
  expect(replan(found).size).toBe(0);
  expect(found.swaps).toEqual([]);
  // The amber one was seen at the red one's output, and what that lights is in doubt.
  const again = beginCheck(loads, { is: 'lamps', lamps: [0, 2] }, { board: 'town', now: minute(0), before: null });
  const mended = diagnose(loads, new Map([...check.answers, ...walk(again, wires, 20).answers]));
  expect(mended.swaps).toHaveLength(1);
  expect(mended.doubts).toEqual([]);
});

test('an exchange with lamps whose wires touch waits until those are mended', () => {
  const loads = someLoads(6);
  const wires = new Map([...planned(loads), [2, [1]], [3, [0, 3]], [5, [0, 3]]] as [number, number[]][]);
  const found = diagnose(loads, checked(loads, wires).answers);
  expect(found.swaps).toEqual([]);
  expect(found.doubts.map(({ lamps }) => lamps.map(({ lamp }) => lamp))).toEqual([[0]]);
  expect(found.doubts[0]?.why).toMatch(/whose wires touch/);
});

test('a wrong lamp that leads to one not asked yet waits for it', () => {
  const loads = someLoads(3);
  let check = beginCheck(loads, { is: 'lamps', lamps: [0] }, { board: 'town', now: minute(0), before: null });
  check = answer(check, { result: 'wrong', saw: loads.slice(1, 2) }, minute(1));
  const found = diagnose(loads, check.answers);
  expect(found.needed.map(({ lamp }) => lamp)).toEqual([1]);
  expect(replan(found).size).toBe(0);
});

test('touching wires and lamps that are not in the plan go to the soldering iron', () => {
  const loads = someLoads(6);
  let check = beginCheck(loads, { is: 'all' }, { board: 'town', now: minute(0), before: null });
  check = answer(check, { result: 'two', saw: loads.slice(1, 2) }, minute(1));
  check = answer(check, { result: 'two', saw: loads.slice(0, 1) }, minute(2));
  check = answer(check, { result: 'wrong' }, minute(3));
  check = answer(check, { result: 'dim' }, minute(4));
  check = answer(check, { result: 'wrong', saw: [loads[3], loads[5]].flatMap((load) => load ?? []) }, minute(5));
  check = answer(check, { result: 'right' }, minute(6));
  expect(repairsOf(diagnose(loads, check.answers)).map(({ what }) => what)).toEqual([
    'Site 0, Head 1, red at D5 is dim.',
    'Site 0, Head 0, red at D2 lights together with Site 0, Head 0, amber.',
    'Site 0, Head 0, amber at D3 lights together with Site 0, Head 0, red.',
    'D4 lights another lamp instead of Site 0, Head 0, green.',
    'D6 lights Site 0, Head 1, red and Site 0, Head 1, green instead of Site 0, Head 1, amber.',
  ]);
});
