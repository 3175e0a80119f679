/** A site given row by row: every operation of the board can be used from a file. */
import { describe, expect, it } from 'vitest';
import { readLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { type Edits, edited, type Loose, layoutWithRows } from '../layout/small.ts';

function programOf(edits: Edits) {
  const { layout, findings } = readLayout(edited(layoutWithRows(), edits));
  expect(findings).toEqual([]);
  const compiled = layout && compileLayout(layout);
  expect(compiled?.findings).toEqual([]);
  const table = compiled?.boards[0]?.table;
  expect(table && encodeTable(table).findings).toEqual([]);
  const site = table?.sites[2];
  return { site, program: table?.programs[site?.program ?? -1] };
}

const button = (id: string, pin: string): Loose => ({ id, name: id, board: 'b1', pin });
const show = { white: 'lit' };
const when = (is: string, ...inputs: string[]) => ({ is, inputs });

const EVERYTHING: Edits = {
  inputs: [button('road', 'D10'), button('side', 'D11'), button('walk', 'D12')],
  groups: [{ id: 'g', name: 'Street', board: 'b1', cycle: 60 }],
  'sites.2.group': 'g',
  'sites.2.dials': [
    { id: 'least', value: 5 },
    { id: 'gap', value: 1.5, least: 0.5, greatest: 10 },
    { id: 'most', value: 30 },
    { id: 'point', value: 0, greatest: 60 },
  ],
  'sites.2.start': 'wait',
  'sites.2.rows': [
    { do: 'jump', when: when('noDemand', 'walk'), to: 'wait' },
    { do: 'clear', inputs: ['walk'] },
    { do: 'until', label: 'wait', least: 'least', when: when('demand', 'side', 'walk'), show },
    { do: 'untilMax', least: 'least', most: 'most', when: when('changed', 'road'), show: {} },
    { do: 'extend', least: 'least', gap: 'gap', most: 'most', detectors: ['road'], opposing: ['side', 'walk'], show },
    { do: 'random', low: 'least', high: 'most', show: { white: 'alternate' } },
    { do: 'sync', least: 'least', offset: 'point', show },
    { do: 'jump', when: { is: 'chance', outOf256: 64 }, to: 'wait' },
    { do: 'latch', inputs: ['side'] },
    { do: 'after', dial: 'least', show },
  ],
};

describe('rows of a file', () => {
  it('become the rows of the board, with numbers for names', () => {
    const { program, site } = programOf(EVERYTHING);
    expect(program?.inputs).toEqual(['walk', 'side', 'road']);
    expect(site).toMatchObject({ start: 2, group: 0, inputs: [2, 1, 0], dials: [5000, 1500, 30000, 0] });
    expect(program?.rows).toEqual([
      { op: 'jump', when: { kind: 'noDemand', inputs: [0] }, to: 2 },
      { op: 'clear', inputs: [0] },
      { op: 'until', min: 0, when: { kind: 'demand', inputs: [1, 0] }, states: ['lit'] },
      { op: 'untilMax', min: 0, max: 2, when: { kind: 'changed', inputs: [2] }, states: ['dark'] },
      { op: 'extend', min: 0, gap: 1, max: 2, detectors: [2], opposing: [1, 0], states: ['lit'] },
      { op: 'random', low: 0, high: 2, states: ['alternate'] },
      { op: 'sync', min: 0, offset: 3, states: ['lit'] },
      { op: 'jump', when: { kind: 'chance', outOf256: 64 }, to: 2 },
      { op: 'latch', inputs: [1] },
      { op: 'after', dial: 0, states: ['lit'] },
    ]);
  });

  it('take every kind of condition', () => {
    for (const kind of ['demand', 'noDemand', 'active', 'inactive', 'allActive', 'notAll']) {
      const rows = [{ do: 'until', least: 'least', when: when(kind, 'road', 'road'), show }];
      const { program } = programOf({ ...EVERYTHING, 'sites.2.rows': rows, 'sites.2.start': undefined });
      expect(program?.rows).toEqual([{ op: 'until', min: 0, when: { kind, inputs: [0] }, states: ['lit'] }]);
    }
  });
});

describe('dials of a file', () => {
  const limits = (edits: Edits) => programOf(edits).program?.dials.map(({ min, max }) => [min, max]);

  it('may be turned from a tenth to ten times, unless the file says otherwise', () => {
    expect(limits({})).toEqual([
      [200, 20000],
      [100, 10000],
    ]);
    expect(limits({ 'sites.2.dials.0': { id: 'on', value: 2, least: 1.5, greatest: 2.25 } })?.[0]).toEqual([
      1500, 2250,
    ]);
  });

  it('stay within what the board holds for a flash', () => {
    expect(limits({ 'sites.2.flash': { on: 'on', off: 'off' }, 'sites.2.dials.0.value': 4 })).toEqual([
      [400, 30000],
      [100, 10000],
    ]);
  });

  it('stay within what the board holds for a gap', () => {
    expect(limits({ ...EVERYTHING, 'sites.2.dials.1': { id: 'gap', value: 8 } })?.[1]).toEqual([800, 60000]);
  });

  it('round limits to what the board can count', () => {
    expect(limits({ 'sites.2.dials.0.value': 0.05, 'sites.2.dials.1.value': 32.99 })).toEqual([
      [10, 500],
      [3290, 329000],
    ]);
  });
});
