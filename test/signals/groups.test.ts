/** Common cycles over two boards: what is told when the wire is missing or wrong. */
import { describe, expect, test } from 'vitest';
import { compileLayout } from '../../shared/signals/compile.ts';
import type { Edits } from '../layout/small.ts';
import { esplanade, WIRED } from './two-boards.ts';

/** Without the note of the second to spare. */
const told = (edits: Edits): string[] =>
  compileLayout(esplanade(edits))
    .findings.filter(({ code }) => code !== 'cycle-slack')
    .map(({ severity, code, path }) => `${severity} ${code} ${path}`);

describe('two boards with one cycle', () => {
  test('wired they have nothing to find fault with, and the tables say so', () => {
    expect(told(WIRED)).toEqual([]);
    const { boards } = compileLayout(esplanade(WIRED));
    const [pier, harbour] = boards.map(({ table }) => table);
    expect(pier?.groups).toMatchObject([{ syncOut: 6, syncIn: null, cycle: { value: 60_000 } }]);
    expect(pier?.lamps[6]).toMatchObject({ output: 8, activeLow: false });
    expect(harbour?.groups).toMatchObject([{ syncOut: null, syncIn: 0, cycle: { value: 60_000 } }]);
    expect(harbour?.inputs).toMatchObject([{ pin: 9, activeLow: false, pullUp: false, debounce: 10 }]);
  });

  test('without a wire each end is told what it lacks', () => {
    expect(told({})).toEqual(['warning sync-wire-missing groups[0]', 'warning sync-wire-missing groups[1]']);
    const [first, second] = compileLayout(esplanade()).findings;
    expect(first?.what).toContain('Pier board gives the others no beat');
    expect(second?.what).toContain('Harbour board takes no beat');
  });

  test.each<[string, Edits, string[]]>([
    [
      'no sync output',
      { ...WIRED, 'groups.0.syncOut': undefined },
      ['warning sync-wire-missing groups[0]', 'note sync-without-leader groups[1].syncIn'],
    ],
    ['no sync input', { ...WIRED, 'groups.1.syncIn': undefined }, ['warning sync-wire-missing groups[1]']],
    [
      'two that give the beat',
      { ...WIRED, 'groups.1.syncIn': undefined, 'groups.1.syncOut': { pin: 'D8' } },
      ['warning sync-wire-missing groups[1]'],
    ],
    ['another cycle', { ...WIRED, 'groups.1.cycle': 65 }, ['warning sync-cycle-differs groups[1].cycle']],
    [
      'another cycle on another name, by the wire',
      { ...WIRED, 'groups.1.cycle': 65, 'groups.1.name': 'Harbour Road' },
      ['warning sync-cycle-differs groups[1].cycle'],
    ],
    [
      'an input for a button',
      { ...WIRED, 'inputs.0.activeLow': undefined },
      ['warning sync-level inputs[0].activeLow'],
    ],
    [
      'an output that is low for the beat',
      { ...WIRED, 'groups.0.syncOut.activeLow': true },
      ['warning sync-level inputs[0].activeLow'],
    ],
    ['both low for the beat', { ...WIRED, 'groups.0.syncOut.activeLow': true, 'inputs.0.activeLow': true }, []],
    [
      'an input that waits too long',
      { ...WIRED, 'inputs.0.debounce': 0.2 },
      ['warning sync-debounce inputs[0].debounce'],
    ],
    ['an input that is none', { ...WIRED, 'groups.1.syncIn': 'bell' }, ['error unknown-input groups[1].syncIn']],
    [
      'a beat from nowhere',
      { ...WIRED, 'groups.0.syncOut': undefined, 'groups.0.name': 'Pier' },
      ['note sync-without-leader groups[1].syncIn'],
    ],
    ['other names, no wire: two cycles of their own', { 'groups.0.name': 'Pier' }, []],
    [
      'a name that differs in capitals and spaces',
      { 'groups.0.name': ' ESPLANADE ' },
      ['warning sync-wire-missing groups[0]', 'warning sync-wire-missing groups[1]'],
    ],
  ])('%s', (_, edits, expected) => {
    expect(told(edits)).toEqual(expected);
  });

  test('a third board may take the beat from the second', () => {
    const layout = esplanade(WIRED);
    const third = {
      ...layout,
      boards: [...layout.boards, { id: 'dock', name: 'Dock board', chip: 'atmega328p' as const }],
      groups: [
        ...(layout.groups ?? []).map((group) =>
          group.board === 'harbour' ? { ...group, syncOut: { pin: 'D8' } } : group,
        ),
        { id: 'dock-cycle', name: 'Esplanade', board: 'dock', cycle: 60, syncIn: 'dock-beat' },
      ],
      inputs: [
        ...(layout.inputs ?? []),
        { id: 'dock-beat', name: 'Beat', board: 'dock', pin: 'D9', activeLow: false, pullUp: false, debounce: 0.01 },
      ],
      sites: layout.sites.flatMap((site) =>
        site.id === 'slip'
          ? [site, { ...site, id: 'dock', name: 'Dock Gate', board: 'dock', group: 'dock-cycle' }]
          : [site],
      ),
    };
    expect(compileLayout(third).findings).toEqual([]);
  });

  test('a site that names the group of another board is told of the wire', () => {
    const { findings } = compileLayout(esplanade({ ...WIRED, 'sites.1.group': 'pier-cycle' }));
    const found = findings.find(({ code }) => code === 'group-on-other-board');
    expect(found?.path).toBe('sites[1].group');
    expect(found?.cure).toContain('sync wire');
  });
});
