/** Forgotten wires into the plan: whatever was pointed at, each lamp keeps an output of its own. */
import { expect, test } from 'vitest';
import { type FoundWire, movesOf, takeFound } from '../../shared/lampcheck/found.ts';
import penmarrow from '../../shared/layout/examples/penmarrow.json?raw';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { lampOutputs } from '../../shared/layout/wiring/outputs.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { chance, pick, seededDice, shuffled, times } from '../fixtures/dice.ts';

const town = (): Layout => {
  const { layout } = parseLayout(penmarrow);
  if (!layout) throw new Error('no layout');
  return layout;
};
const RED = 'sites[0].phases[0].lamps.red';
const AMBER = 'sites[0].phases[0].lamps.amber';
const wire = (output: number, path: string | null, activeLow: boolean | null = false): FoundWire => ({
  output,
  path,
  activeLow,
});

function outputAt(layout: Layout, path: string): number | null | undefined {
  return lampPlaces(layout, 'town').find((place) => place.path === path)?.output;
}

test('a lamp on a free output moves there; one lit by low says so', () => {
  const done = takeFound(town(), 'town', [wire(17, RED, true)]);
  if (!('layout' in done)) throw new Error('refused');
  expect(done.said).toBe('Found the wires of 1 lamp on Town board, 1 of them at another output than planned.');
  const [cross] = done.layout.sites;
  expect(cross?.kind === 'junction' && cross.phases[0]?.lamps?.red).toEqual({ pin: 'A3', activeLow: true });
});

test('a lamp that was not seen makes room for one that was', () => {
  const { outputs, displaced } = movesOf(town(), 'town', [wire(3, RED)]);
  expect(displaced.map(({ path }) => path)).toEqual([AMBER]);
  expect([...outputs]).toEqual([
    [RED, 3],
    [AMBER, 2],
  ]);
});

test('of two answers for one lamp or one output the later counts', () => {
  const twice = takeFound(town(), 'town', [wire(17, RED), wire(18, RED), wire(18, AMBER), wire(19, null)]);
  if (!('layout' in twice)) throw new Error('refused');
  expect([outputAt(twice.layout, RED), outputAt(twice.layout, AMBER)]).toEqual([2, 18]);
});

test('nothing seen is nothing to write', () => {
  expect(takeFound(town(), 'town', [wire(17, null)])).toMatchObject({ findings: [{ code: 'nothing-found' }] });
});

test('any pointing leaves a plan that compiles, with what was seen in it', () => {
  const layout = town();
  const places = lampPlaces(layout, 'town');
  const outputs = lampOutputs(layout, 'town').map(({ output }) => output);
  for (const seed of times(60, (at) => at + 1)) {
    const dice = seededDice(seed);
    const tried = shuffled(dice, outputs).slice(0, dice.int(1, outputs.length));
    const found = tried.map((output) =>
      wire(output, chance(dice, 80) ? pick(dice, places).path : null, chance(dice, 30)),
    );
    const done = takeFound(layout, 'town', found);
    if (!('layout' in done)) {
      expect(found.every(({ path }) => path === null)).toBe(true);
      continue;
    }
    const errors = compileLayout(done.layout).findings.filter(({ severity }) => severity === 'error');
    expect(errors, `seed ${seed}`).toEqual([]);
    for (const [path, output] of movesOf(layout, 'town', found).outputs)
      expect(outputAt(done.layout, path)).toBe(output);
    const all = lampPlaces(done.layout, 'town').map(({ output }) => output);
    expect(new Set(all).size).toBe(all.length);
  }
});
