/** Lamps of every kind of site are found, and change places without losing anything of themselves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takeLargerBoard } from '../../shared/layout/new-site/larger-board.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { FIRST_BIT } from '../../shared/layout/wiring/numbers.ts';
import { lampOutputs, outputsOf } from '../../shared/layout/wiring/outputs.ts';
import { valueAt, withValueAt } from '../../shared/layout/wiring/path.ts';
import { assign, permute } from '../../shared/layout/wiring/permute.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { CHAIN_BASE } from '../../shared/table/format.ts';
import { oneOfEach } from '../panel/one-of-each.ts';
import { type Edits, edited, smallLayout } from './small.ts';

function small(edits: Edits = {}): Layout {
  const { layout, findings } = readLayout(edited(smallLayout(), edits));
  expect(findings).toEqual([]);
  if (layout === null) throw new Error('no layout');
  return layout;
}

function done(edit: ReturnType<typeof assign>) {
  if ('findings' in edit) throw new Error(edit.findings[0]?.what);
  return edit;
}

const refusals = (edit: ReturnType<typeof assign>): string[] =>
  'findings' in edit ? edit.findings.map(({ code }) => code) : [];

const output = (layout: Layout, path: string): number | null | undefined =>
  layout.boards.flatMap(({ id }) => lampPlaces(layout, id)).find((lamp) => lamp.path === path)?.output;

const A_RED = 'sites[0].phases[0].lamps.red';
const B_GREEN = 'sites[0].phases[1].lamps.green';

describe('lamps of a board', () => {
  it('are those that the compiler finds, each on its output, for every kind of site', () => {
    const layout = oneOfEach();
    const { boards, findings } = compileLayout(layout);
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    for (const { id, sites, others, table } of boards) {
      const compiled = [...sites.flatMap(({ lamps }) => lamps), ...others].map(({ path, index }) => [
        path,
        table.lamps[index]?.output,
      ]);
      const found = lampPlaces(layout, id).map((lamp) => [lamp.path, lamp.output]);
      expect(new Map(found as [string, number][])).toEqual(new Map(compiled as [string, number][]));
      expect(found).toHaveLength(compiled.length);
    }
  });

  it('are called what a person calls them', () => {
    const names = lampPlaces(oneOfEach(), 'main').map(({ name }) => name);
    expect(lampPlaces(small(), 'b1').map(({ name }) => name)).toEqual([
      'The Cross, A Street red',
      'The Cross, A Street amber',
      'The Cross, A Street green',
      'The Cross, B Street red',
      'The Cross, B Street amber',
      'The Cross, B Street green',
      'The Zebra, left',
      'The Zebra, right',
    ]);
    expect(new Set(names).size).toBe(names.length);
  });

  it('are numbered as in the image', () => {
    expect(FIRST_BIT).toBe(CHAIN_BASE);
  });
});

describe('outputs', () => {
  it('say what each is used for', () => {
    const layout = small({
      inputs: [{ id: 'button', name: 'Button', board: 'b1', pin: 'A5', indicator: { pin: 8 } }],
      'boards.0.chain': { chips: 1, data: 'D10', clock: 'D11', latch: 'D12' },
    });
    const uses = outputsOf(layout, 'b1').map(({ name, use }) => `${name} ${use.is}`);
    expect(uses.slice(0, 3)).toEqual(['D0 serial', 'D1 serial', 'D2 lamp']);
    expect(uses.slice(8, 14)).toEqual(['D8 lamp', 'D9 free', 'D10 chain', 'D11 chain', 'D12 chain', 'D13 free']);
    expect(uses.slice(-9)).toEqual(['A5 input', ...Array.from({ length: 8 }, (_, bit) => `bit ${bit} free`)]);
    expect(outputsOf(layout, 'none')).toEqual([]);
  });
});

describe('a lamp', () => {
  it('goes to a free output, with everything of its own', () => {
    const layout = small({ 'sites.0.phases.0.lamps.red': { pin: 'D2', wire: 'violet', activeLow: true } });
    const { layout: next, said } = done(assign(layout, A_RED, 15 + 2));
    expect(valueAt(next, A_RED)).toEqual({ pin: 'A3', wire: 'violet', activeLow: true });
    expect(said).toBe('Moved The Cross, A Street red from D2 to A3.');
    expect(next.sites[1]).toBe(layout.sites[1]);
  });

  it('changes places with the lamp that is there', () => {
    const { layout, said } = done(assign(small(), A_RED, 7));
    expect([output(layout, A_RED), output(layout, B_GREEN)]).toEqual([7, 2]);
    expect(said).toBe('Exchanged the outputs of The Cross, A Street red and The Cross, B Street green.');
    expect(compileLayout(layout).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('gets an output where it had none', () => {
    const { layout } = done(assign(small({ 'sites.1.beacons.0': { id: 'left' } }), 'sites[1].beacons[0]', 9));
    expect(valueAt(layout, 'sites[1].beacons[0]')).toEqual({ id: 'left', pin: 'D9' });
  });

  it('is refused what carries no lamp, with a cure', () => {
    const layout = small({
      inputs: [{ id: 'button', name: 'Button', board: 'b1', pin: 'A5' }],
      'boards.0.chain': { chips: 1, data: 'D10', clock: 'D11', latch: 'D12' },
    });
    for (const taken of [0, 1, 19, 10, 20, FIRST_BIT + 8])
      expect(refusals(assign(layout, A_RED, taken))).toEqual(['not-for-lamps']);
    expect(refusals(assign(layout, 'sites[0].phases[9].lamps.red', 9))).toEqual(['no-such-lamp']);
    expect(refusals(permute(layout, 'b9', new Map([[A_RED, 9]])))).toEqual(['no-such-board']);
    expect(refusals(permute(layout, 'b1', new Map([[A_RED, 7]])))).toEqual(['output-twice']);
  });
});

it('any permutation of outputs is taken, moves nothing else, and is undone by its inverse', () => {
  const layout = oneOfEach();
  const lamps = lampPlaces(layout, 'main');
  const outputs = lampOutputs(layout, 'main').map((it) => it.output);
  fc.assert(
    fc.property(fc.shuffledSubarray(outputs, { minLength: lamps.length, maxLength: lamps.length }), (chosen) => {
      const wanted = new Map(lamps.map(({ path }, index) => [path, chosen[index] ?? 0]));
      const { layout: next } = done(permute(layout, 'main', wanted));
      for (const { path } of lamps) expect(output(next, path)).toBe(wanted.get(path));
      const back = new Map(lamps.map(({ path, output: was }) => [path, was ?? 0]));
      expect(writeLayout(done(permute(next, 'main', back)).layout)).toBe(writeLayout(layout));
    }),
    { numRuns: 20 },
  );
});

it('moving to the larger board keeps the plan: every lamp on the pin of the same name, with its wire and electrics', () => {
  const layout = small({
    'sites.0.phases.0.lamps.red': { pin: 2, wire: 'violet', electrics: { forward: 1.9, milliamps: 5 } },
    'sites.1.beacons.0.pin': 14,
    inputs: [{ id: 'button', name: 'Button', board: 'b1', pin: 19, indicator: { pin: 18 } }],
    'boards.0.chain': { chips: 1, data: 16, clock: 'D11', latch: 'D12' },
    'boards.0.power': { from: 'external', milliamps: 1000 },
  });
  const larger = takeLargerBoard(layout, 'b1');
  const named = (it: Layout) =>
    outputsOf(it, 'b1').flatMap(({ name, use }) =>
      use.is === 'free' || use.is === 'serial' ? [] : [[name, use.is, use.is === 'lamp' ? use.lamp.path : null]],
    );
  expect(named(larger)).toEqual(named(layout));
  const rest = (it: Layout) => lampPlaces(it, 'b1').map(({ path, lamp: { pin: _, ...others } }) => [path, others]);
  expect(rest(larger)).toEqual(rest(layout));
  expect(larger.boards[0]?.power).toEqual(layout.boards[0]?.power);
  const errors = compileLayout(larger).findings.filter(({ severity }) => severity === 'error');
  expect(errors).toEqual(compileLayout(layout).findings.filter(({ severity }) => severity === 'error'));
});

describe('places in the document', () => {
  it('are read and replaced without touching the rest', () => {
    const document = { a: [{ b: 1 }, { b: 2, c: 3 }], d: {} };
    expect(valueAt(document, 'a[1].b')).toBe(2);
    expect(valueAt(document, 'a[5].b')).toBeUndefined();
    expect(valueAt(document, 'toString')).toBeUndefined();
    const next = withValueAt(document, 'a[1].b', undefined);
    expect(next).toEqual({ a: [{ b: 1 }, { c: 3 }], d: {} });
    expect(next.d).toBe(document.d);
    expect(next.a[0]).toBe(document.a[0]);
    expect(document.a[1]?.b).toBe(2);
  });
});
