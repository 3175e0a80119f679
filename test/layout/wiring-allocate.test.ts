/** All lamps of a board laid out anew. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type AllocateOptions, allocate } from '../../shared/layout/wiring/allocate.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { outputName } from '../../shared/layout/wiring/numbers.ts';
import { lampOutputs, outputsOf } from '../../shared/layout/wiring/outputs.ts';
import { movesBetween, permute } from '../../shared/layout/wiring/permute.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { PENMARROW } from '../panel/example.ts';
import { oneOfEach } from '../panel/one-of-each.ts';

function read(value: unknown): Layout {
  const { layout, findings } = readLayout(value);
  if (layout === null) throw new Error(findings[0]?.what);
  return layout;
}

const penmarrow = (edit: (layout: ReturnType<typeof JSON.parse>) => void = () => {}): Layout => {
  const value = JSON.parse(PENMARROW);
  edit(value);
  return read(value);
};

function laid(layout: Layout, board = 'town', options?: AllocateOptions): Layout {
  const edit = allocate(layout, board, options);
  if ('findings' in edit) throw new Error(edit.findings[0]?.what);
  return edit.layout;
}

function names(layout: Layout, boardId = 'town'): (string | null)[] {
  const board = layout.boards.find(({ id }) => id === boardId);
  return lampPlaces(layout, boardId).map(({ output }) => (board && output !== null ? outputName(board, output) : null));
}

function shuffled(layout: Layout, boardId: string, order: readonly number[]): Layout {
  const lamps = lampPlaces(layout, boardId);
  const edit = permute(layout, boardId, new Map(lamps.map(({ path }, index) => [path, order[index] ?? 0])));
  if ('findings' in edit) throw new Error(edit.findings[0]?.what);
  return edit.layout;
}

const errors = (layout: Layout) => compileLayout(layout).findings.filter(({ severity }) => severity === 'error');

/** Lamps of one site that do not stand side by side. */
function scattered(layout: Layout, boardId: string): string[] {
  const lamps = lampPlaces(layout, boardId);
  return lamps.slice(1).flatMap((lamp, index) => {
    const before = lamps[index];
    return before?.site === lamp.site && lamp.output !== (before?.output ?? 0) + 1 ? [lamp.name] : [];
  });
}

describe('automatic allocation', () => {
  it('leaves a plan that is in order as it is', () => {
    const layout = penmarrow();
    expect(allocate(layout, 'town')).toEqual({ layout, said: 'Left the outputs of Town board as they were.' });
  });

  it('brings scattered lamps together in the order of their heads, plain pins first, D13 and the buses last', () => {
    const mixed = shuffled(penmarrow(), 'town', [19, 3, 9, 2, 18, 5, 13, 17, 10, 4, 12, 16, 7, 11]);
    const plan = laid(mixed);
    expect(names(plan)).toEqual([
      ...['D2', 'D3', 'D4', 'D5', 'D6', 'D7'],
      ...['D8', 'D9', 'D10', 'D11', 'D12', 'A0'],
      ...['A1', 'A2'],
    ]);
    expect(errors(plan)).toEqual([]);
  });

  it('leaves analogue inputs, the wires of the chain and the serial line alone', () => {
    const layout = penmarrow((it) => {
      it.inputs = [{ id: 'b', name: 'Button', board: 'town', pin: 'D4' }];
      it.boards[0].chain = { chips: 1, data: 'D2', clock: 'D3', latch: 'A5' };
      it.sites[0].phases[0].lamps = { red: { bit: 7 }, amber: { bit: 0 }, green: { bit: 3 } };
      it.sites[0].phases[1].lamps = { red: { pin: 'D6' }, amber: { pin: 'D5' }, green: { pin: 'D7' } };
    });
    const plan = laid(layout);
    // Six of the Cross: three stay on the chain, from its begin; three on pins, the first that are free.
    expect(names(plan).slice(0, 6)).toEqual(['bit 0', 'bit 1', 'bit 2', 'D5', 'D6', 'D7']);
    const fixed = (it: Layout) => outputsOf(it, 'town').filter(({ use }) => use.is !== 'lamp' && use.is !== 'free');
    expect(fixed(plan)).toEqual(fixed(layout));
    expect(errors(plan)).toEqual([]);
  });

  it('gives lamps without an output one, on the chain where the pins are full', () => {
    const layout = penmarrow((it) => {
      it.boards[0].chain = { chips: 1, data: 'A3', clock: 'A4', latch: 'A5' };
      it.sites[2].beacons = Array.from({ length: 4 }, (_, index) => ({ id: `b${index}` }));
    });
    const plan = laid(layout);
    // 18 - 3 pins for the chain = 15 for 16 lamps.
    expect(names(plan).slice(-4)).toEqual(['A1', 'A2', 'D13', 'bit 0']);
    expect(errors(plan)).toEqual([]);
  });

  it('says so when there are more lamps than outputs', () => {
    const layout = penmarrow((it) => {
      it.sites[2].beacons = Array.from({ length: 7 }, (_, index) => ({ id: `b${index}` }));
    });
    const edit = allocate(layout, 'town');
    expect('findings' in edit && edit.findings).toMatchObject([
      { code: 'too-few-outputs', path: 'boards[0]', what: 'Town board has 19 lamps and 18 outputs for lamps.' },
    ]);
  });

  it('balances port groups only where one would carry more than half of its limit', () => {
    const layout = penmarrow((it) => {
      it.boards[0].chip = 'atmega2560';
    });
    const groups = [
      { outputs: [2, 3, 4, 5, 6, 7, 8, 9], limit: 100 },
      { outputs: [10, 11, 12, 22, 23, 24, 25, 26, 27], limit: 100 },
      { outputs: [28, 29, 30, 31, 32, 33, 34, 35], limit: 100 },
    ];
    const light = laid(layout, 'town', { groups, milliamps: () => 3 });
    // The second junction finds no six in a row before D13, the beacons do.
    expect(names(light)).toEqual([
      ...['D2', 'D3', 'D4', 'D5', 'D6', 'D7'],
      ...['D22', 'D23', 'D24', 'D25', 'D26', 'D27'],
      ...['D8', 'D9'],
    ]);
    const heavy = laid(layout, 'town', { groups, milliamps: () => 8 });
    const sums = groups.map(
      ({ outputs }) => lampPlaces(heavy, 'town').filter(({ output }) => outputs.includes(output ?? -1)).length * 8,
    );
    expect(Math.max(...sums)).toBeLessThanOrEqual(50);
    expect(scattered(heavy, 'town')).toEqual([]);
  });

  it('keeps every lamp, uses no output twice, and does nothing the second time, from any start', () => {
    const town = oneOfEach();
    const outputs = lampOutputs(town, 'main').map(({ output }) => output);
    const count = lampPlaces(town, 'main').length;
    fc.assert(
      fc.property(fc.shuffledSubarray(outputs, { minLength: count, maxLength: count }), (order) => {
        const plan = laid(shuffled(town, 'main', order), 'main');
        const used = lampPlaces(plan, 'main').map(({ output }) => output);
        expect(new Set(used).size).toBe(count);
        expect(movesBetween(plan, laid(plan, 'main'), 'main')).toEqual([]);
        expect(errors(plan)).toEqual([]);
      }),
      { numRuns: 15 },
    );
  });
});
