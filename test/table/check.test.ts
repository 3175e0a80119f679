import { describe, expect, it } from 'vitest';
import { CODES } from '../../shared/link/vocabulary.ts';
import { checkTable } from '../../shared/table/check.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { BoardTable, Program, SiteBinding } from '../../shared/table/model.ts';
import { states } from '../fixtures/sites/build.ts';
import { byHand } from './by-hand.ts';

const [program] = byHand.programs as [Program];
const [site] = byHand.sites as [SiteBinding];
const dial = { name: 'dial', min: 10, max: 100 };

const withProgram = (change: Partial<Program>): BoardTable => ({ ...byHand, programs: [{ ...program, ...change }] });
const withSite = (change: Partial<SiteBinding>): BoardTable => ({ ...byHand, sites: [{ ...site, ...change }] });
const withRow = (row: number, change: object): BoardTable =>
  withProgram({ rows: program.rows.map((old, index) => (index === row ? { ...old, ...change } : old)) });
const withLamp = (lamp: number, change: object): BoardTable => ({
  ...byHand,
  lamps: byHand.lamps.map((old, index) => (index === lamp ? { ...old, ...change } : old)),
});
const withInput = (change: object): BoardTable => ({
  ...byHand,
  inputs: byHand.inputs.map((old) => ({ ...old, ...change })),
});
const withGroup = (change: object): BoardTable => ({
  ...byHand,
  groups: byHand.groups.map((old) => ({ ...old, ...change })),
});
const withDial = (index: number, change: object): BoardTable =>
  withProgram({ dials: program.dials.map((old, at) => (at === index ? { ...old, ...change } : old)) });

/** What is wrong, the table, the code of the protocol and the place. */
const cases: readonly (readonly [what: string, table: BoardTable, code: string, path: string])[] = [
  ['17 sites', { ...byHand, lamps: manyLamps(53), sites: Array(17).fill(site) }, 'badCount', 'sites'],
  [
    'nine chips',
    { ...byHand, chain: { chips: 9, data: 4, clock: 5, latch: 6, enable: null } },
    'badCount',
    'chain.chips',
  ],
  [
    'more lamps in sites than there are',
    { ...withGroup({ syncOut: null }), inputs: withInput({ indicator: null }).inputs, lamps: byHand.lamps.slice(0, 2) },
    'badCount',
    'lamps',
  ],
  ['a program without rows', { ...withProgram({ rows: [] }), sites: [] }, 'badCount', 'programs[0].rows'],
  ['65 conflict pairs', withProgram({ conflicts: Array(65).fill([0, 2]) }), 'badCount', 'programs[0].conflicts'],
  ['too few states', withRow(0, { states: states('R.') }), 'badLength', 'programs[0].rows[0].states'],
  ['an input not bound at all', withSite({ inputs: [] }), 'badLength', 'sites[0].inputs'],
  ['a dial without a value', withSite({ dials: [500, 330_000] }), 'badLength', 'sites[0].dials'],
  ['a lamp on the serial line', withLamp(0, { output: 1 }), 'badOutput', 'lamps[0].output'],
  ['a lamp on a pin that the chip has not', withLamp(0, { output: 20 }), 'badOutput', 'lamps[0].output'],
  ['a lamp on a bit beyond the chain', withLamp(1, { output: 136 }), 'badOutput', 'lamps[1].output'],
  [
    'a chain line on pin 0',
    { ...byHand, chain: { chips: 1, data: 0, clock: 5, latch: 6, enable: null } },
    'badOutput',
    'chain.data',
  ],
  [
    'a chain line on a chain bit',
    { ...byHand, chain: { chips: 1, data: 130, clock: 5, latch: 6, enable: null } },
    'badOutput',
    'chain.data',
  ],
  ['an indicator that is a lamp of a site', withInput({ indicator: 2 }), 'badOutput', 'inputs[0].indicator'],
  ['a sync output that does not exist', withGroup({ syncOut: 5 }), 'badOutput', 'groups[0].syncOut'],
  ['an input on a chain bit', withInput({ pin: 130 }), 'badInput', 'inputs[0].pin'],
  ['a night input that does not exist', { ...byHand, nightInput: 1 }, 'badInput', 'nightInput'],
  ['a sync input that does not exist', withGroup({ syncIn: 1 }), 'badInput', 'groups[0].syncIn'],
  ['a site bound to an input that does not exist', withSite({ inputs: [1] }), 'badInput', 'sites[0].inputs[0]'],
  ['a row with an unknown dial', withRow(0, { dial: 3 }), 'badDial', 'programs[0].rows[0]'],
  ['limits out of order', withDial(1, { min: 400_000, max: 0 }), 'badDial', 'programs[0].dials[1]'],
  ['limits that cannot be counted', withDial(1, { max: 400_500 }), 'badDial', 'programs[0].dials[1]'],
  ['an interval that may be zero', withRow(0, { dial: 1 }), 'badDial', 'programs[0].rows[0]'],
  ['a random time that may be zero', withRow(4, { low: 1 }), 'badDial', 'programs[0].rows[4]'],
  ['a gap of more than a minute', withRow(3, { gap: 1 }), 'badDial', 'programs[0].rows[3]'],
  [
    'a flash of more than 30 s',
    {
      ...withProgram({ dials: [...program.dials, { ...dial, max: 30_010 }], flash: { on: 0, off: 3 } }),
      sites: [{ ...site, dials: [...site.dials, 10] }],
    },
    'badDial',
    'programs[0].flash.off',
  ],
  ['a flash dial alone', withProgram({ flash: { on: 0, off: 15 } }), 'badDial', 'programs[0].flash.off'],
  [
    'a cycle that may be under a second',
    withGroup({ cycle: { name: 'cycle', value: 60_000, min: 990, max: 600_000 } }),
    'badDial',
    'groups[0].cycle.min',
  ],
  [
    'a mask with an input that the program has not',
    withRow(7, { inputs: [1] }),
    'badRow',
    'programs[0].rows[7].inputs',
  ],
  [
    'an opposing input that the program has not',
    withRow(3, { opposing: [4] }),
    'badRow',
    'programs[0].rows[3].opposing',
  ],
  ['a change in a jump', withRow(6, { when: { kind: 'changed', inputs: [0] } }), 'badRow', 'programs[0].rows[6].when'],
  [
    'chance in an interval',
    withRow(1, { when: { kind: 'chance', outOf256: 3 } }),
    'badRow',
    'programs[0].rows[1].when',
  ],
  ['a jump to nowhere', withRow(6, { to: 9 }), 'badTarget', 'programs[0].rows[6].to'],
  ['a start at nowhere', withSite({ start: 9 }), 'badTarget', 'sites[0].start'],
  ['a dial above its limit', withSite({ dials: [2010, 330_000, 900] }), 'badTime', 'sites[0].dials[0]'],
  ['a dial that cannot be counted', withSite({ dials: [505, 330_000, 900] }), 'badTime', 'sites[0].dials[0]'],
  [
    'a cycle outside its limits',
    withGroup({ cycle: { name: 'cycle', value: 9000, min: 10_000, max: 600_000 } }),
    'badTime',
    'groups[0].cycle.value',
  ],
  ['an offset that cannot be counted', withSite({ offset: 1501 }), 'badTime', 'sites[0].offset'],
  ['a sweep that is no multiple of 10', { ...byHand, sweep: 255 }, 'badTime', 'sweep'],
  ['two greens at once', withRow(3, { states: states('R.G') }), 'conflict', 'programs[0].rows[3].states'],
  [
    'a green that flashes beside a red',
    withRow(3, { states: states('R.g') }),
    'conflict',
    'programs[0].rows[3].states',
  ],
  ['two greens in the fault aspect', withProgram({ fault: states('R.G') }), 'conflict', 'programs[0].fault'],
  ['two greens in the safe aspect', withProgram({ safe: states('R.G') }), 'conflict', 'programs[0].safe'],
  ['a pair of one lamp', withProgram({ conflicts: [[1, 1]] }), 'conflict', 'programs[0].conflicts[0]'],
  [
    'a pair with a lamp that does not exist',
    withProgram({ conflicts: [[1, 3]] }),
    'conflict',
    'programs[0].conflicts[0]',
  ],
  [
    'a site without a program',
    { ...byHand, sites: [...byHand.sites, { ...site, program: 1 }] },
    'badSite',
    'sites[1].program',
  ],
  ['a group that does not exist', withSite({ group: 1 }), 'badSite', 'sites[0].group'],
  ['a sync row without a group', withSite({ group: null }), 'badSite', 'sites[0].group'],
  ['a pin used twice', withLamp(2, { output: 2 }), 'pinTwice', 'lamps[2].output'],
  ['a chain bit used twice', withLamp(3, { output: 129 }), 'pinTwice', 'lamps[3].output'],
  ['an input on a pin of the chain', withInput({ pin: 6 }), 'pinTwice', 'inputs[0].pin'],
];

function manyLamps(count: number) {
  return Array.from({ length: count }, (_, index) => ({
    ...byHand.lamps[0],
    output: 128 + index,
  })) as BoardTable['lamps'];
}

describe('a table with one thing wrong', () => {
  it.each(cases.filter(([what]) => what !== '17 sites'))(
    '%s: one finding with code and place',
    (_, table, code, path) => {
      expect(checkTable(table).map((finding) => ({ code: finding.code, path: finding.path }))).toEqual([
        { code, path },
      ]);
      expect(encodeTable(table).bytes).toBeNull();
    },
  );

  it('17 sites: said once, beside what the missing chain bits say', () => {
    const table = cases[0]?.[1];
    if (!table) throw new Error('no case');
    const findings = checkTable(table).filter(
      ({ path }) => !path.startsWith('lamps[') && !path.includes('indicator') && !path.includes('syncOut'),
    );
    expect(findings).toMatchObject([{ code: 'badCount', path: 'sites', severity: 'error' }]);
  });
});

it('every code that a table can break is one of the protocol', () => {
  const known = new Set(CODES.map(({ key }) => key));
  for (const [, , code] of cases) expect(known).toContain(code);
  // All codes from 20 on speak of tables; each but the format has a case here.
  const spoken = new Set(cases.map(([, , code]) => code));
  const ofTables = CODES.filter(({ code, key }) => code > 20 && key !== 'badFormat').map(({ key }) => key);
  expect(ofTables.filter((key) => !spoken.has(key))).toEqual([]);
});

it('numbers that are none at all are findings, not exceptions', () => {
  const odd = withSite({ program: Number.NaN });
  expect(checkTable(odd)).toMatchObject([{ code: 'badSite', path: 'sites[0].program' }, ...checkTable(odd).slice(1)]);
  expect(encodeTable(withSite({ offset: Number.NaN })).findings).toMatchObject([{ code: 'badTime' }]);
});
