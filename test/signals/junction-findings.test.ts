/** What the compiler says of junctions whose stages cannot work as they are written. */
import { describe, expect, it } from 'vitest';
import { checkJunctionLimits } from '../../shared/signals/junction/limits.ts';
import type { Row } from '../../shared/table/model.ts';
import type { Loose } from '../layout/small.ts';
import { compiled, layoutOf, type PhaseWords } from './junctions.ts';

const stage = (id: string, phases: string[], green: number, more: object = {}) => ({ id, phases, green, ...more });
const skip = { skip: true };
const asks = (id: string) => ({ demand: [id] });

type Case = readonly [kind: string, phases: Record<string, PhaseWords>, site: Loose, told: string[], practice?: string];

const WAYS: readonly Case[] = [
  [
    'a stage that nothing calls',
    { A: {}, B: {} },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10, skip)] },
    ['error stage-never-called sites[0].stages[1].skip'],
  ],
  [
    'a stage without an end',
    { A: asks('a'), B: asks('b') },
    { stages: [stage('1', ['A', 'B'], 10, skip), stage('2', ['A'], 10, skip)] },
    [
      'error stage-never-left sites[0].stages[0]',
      'error stage-never-reached sites[0].stages[1]',
      'note demand-not-needed sites[0].phases[0].demand[0]',
    ],
  ],
  [
    'a stage that can never come',
    { A: asks('a'), B: {} },
    { stages: [stage('1', ['A'], 10), stage('2', ['A'], 10, skip), stage('3', ['B'], 10)] },
    ['error stage-never-reached sites[0].stages[1]', 'note demand-not-needed sites[0].phases[0].demand[0]'],
  ],
  [
    'a demand of a phase that is in no stage',
    { A: {}, B: {}, C: asks('c') },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    ['error demand-never-served sites[0].phases[2].demand[0]'],
  ],
  [
    'one button for two phases that do not go together',
    { A: {}, B: asks('x'), C: asks('x') },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10, skip), stage('3', ['C'], 10, skip)] },
    ['error demand-never-served sites[0].phases[1].demand[0]'],
  ],
  [
    'a demand that nothing waits for',
    { A: asks('a'), B: {} },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    ['note demand-not-needed sites[0].phases[0].demand[0]'],
  ],
  [
    'an extension without detectors',
    { A: {}, B: {} },
    { stages: [stage('1', ['A'], 10, { extend: { maximum: 20 } }), stage('2', ['B'], 10)] },
    ['error no-detectors sites[0].stages[0].extend'],
  ],
  [
    'an extension by somebody else',
    { A: {}, B: asks('b') },
    { stages: [stage('1', ['A'], 10, { extend: { maximum: 20, detectors: ['b'] } }), stage('2', ['B'], 10, skip)] },
    ['error demand-never-served sites[0].stages[0].extend.detectors'],
  ],
  [
    'a gap longer than controllers have',
    { A: asks('a'), B: {} },
    { gap: 40, stages: [stage('1', ['A'], 10, { extend: { maximum: 20 } }), stage('2', ['B'], 10)] },
    ['error time-outside-limits sites[0].gap'],
  ],
  [
    'a maximum below the gap',
    { A: asks('a'), B: {} },
    { gap: 3, stages: [stage('1', ['A'], 10, { extend: { maximum: 2 } }), stage('2', ['B'], 10)] },
    ['error maximum-below-gap sites[0].stages[0].extend.maximum'],
  ],
  [
    'a maximum below the green',
    { A: asks('a'), B: {} },
    { stages: [stage('1', ['A'], 10, { extend: { maximum: 5 } }), stage('2', ['B'], 10)] },
    ['warning maximum-below-green sites[0].stages[0].extend.maximum'],
  ],
  [
    'a stage to wait in where nothing waits',
    { A: {}, B: {} },
    { rest: '1', stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    ['warning not-used sites[0].rest'],
  ],
  [
    'stages that do not exist',
    { A: {}, B: {} },
    { rest: '7', delays: [{ phase: 'A', to: '9', end: 1 }], stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    ['error unknown-stage sites[0].delays[0].to', 'error unknown-stage sites[0].rest'],
  ],
];

const TIMES: readonly Case[] = [
  [
    'a clearance longer than the intergreen',
    { A: {}, P: { lamps: 'RG', kind: 'pedestrian', clearance: 9 } },
    { stages: [stage('1', ['A'], 10), stage('2', ['P'], 10)], intergreens: { P: { A: 10 } } },
    ['error intergreen-short sites[0].intergreens.P.A'],
  ],
  [
    'a clearance of vehicles',
    { A: { clearance: 4 }, B: {} },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    ['warning not-used sites[0].phases[0].clearance'],
  ],
  [
    'figures on a phase of vehicles, which has no clearance',
    { A: {}, B: { lamps: 'RG' } },
    {
      stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)],
      heads: [{ id: 'h', name: 'Across', phase: 'B', kind: 'pedestrian' }],
    },
    ['warning figures-without-clearance sites[0].phases[1]'],
  ],
  [
    'a minimum green below the published one (RiLSA: 5 s)',
    { A: { minGreen: 3 }, B: {} },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    ['warning unusual-time sites[0].phases[0].minGreen'],
    'germany-today',
  ],
  [
    'no word of a minimum green that is from memory',
    { A: { minGreen: 3 }, B: {} },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10)] },
    [],
  ],
  [
    'a green of people under their minimum',
    { A: {}, P: { lamps: 'RG', kind: 'pedestrian', minGreen: 6 } },
    { stages: [stage('1', ['A'], 10), stage('2', ['P'], 5)] },
    ['error green-below-minimum sites[0].stages[1].green'],
  ],
  [
    'a restless cycle',
    { A: { minGreen: 2 }, B: { minGreen: 2 } },
    { stages: [stage('1', ['A'], 4), stage('2', ['B'], 4)] },
    ['note cycle-short-to-watch sites[0].stages'],
  ],
  [
    'a dull cycle',
    { A: {}, B: {} },
    { stages: [stage('1', ['A'], 60), stage('2', ['B'], 60)] },
    ['note cycle-long-to-watch sites[0].stages'],
  ],
];

describe('of the ways through the stages:', () => {
  it.each(WAYS)('%s', (_, phases, site, told, practice) => {
    expect(compiled(layoutOf(phases, site, practice)).told).toEqual(told);
  });
});

describe('of times:', () => {
  it.each(TIMES)('%s', (_, phases, site, told, practice) => {
    expect(compiled(layoutOf(phases, site, practice)).told).toEqual(told);
  });
});

describe('of what a program holds', () => {
  const letters = [...'ABCDEFGHIJ'];

  const onDemand = (ids: readonly string[], times: number): string[] => {
    const phases = Object.fromEntries(ids.map((id) => [id, asks(id.toLowerCase())]));
    const stages = Array.from({ length: times }, () => ids)
      .flat()
      .map((id, index) => stage(String(index + 1), [id], 10, skip));
    const { told } = compiled(layoutOf(phases, { stages, rest: '1' }));
    return told.filter((it) => it.startsWith('error'));
  };

  it('too many inputs', () => {
    expect(onDemand(letters.slice(0, 8), 1)).toEqual([]);
    expect(onDemand(letters.slice(0, 9), 1)).toEqual(['error too-many-inputs sites[0]']);
  });

  it('too many lamps', () => {
    expect(onDemand([...letters, 'K'], 1)).toEqual(['error too-many-lamps sites[0]', 'error too-many-inputs sites[0]']);
  });

  it('too many dials and rows', () => {
    expect(onDemand(letters.slice(0, 8), 2)).toEqual(['error too-many-dials sites[0]', 'error too-many-rows sites[0]']);
  });

  it('more questions at one moment than the board takes steps in a millisecond', () => {
    const stages = [stage('1', ['A'], 10), stage('2', ['B'], 10, skip)];
    const { board } = compiled(layoutOf({ A: {}, B: asks('b') }, { stages }));
    const program = board?.table.programs[0];
    if (program === undefined) throw new Error('no program');
    const asked = (count: number): string[] => {
      const jump: Row = { op: 'jump', when: { kind: 'demand', inputs: [0] }, to: 0 };
      const rows = [...program.rows, ...Array.from({ length: count }, () => jump)];
      return checkJunctionLimits('The Cross', 'sites[0]', { ...program, rows }).map((it) => it.code);
    };
    // The interval that ends counts as well, and what follows must not be a seventeenth step.
    expect(asked(15)).toEqual([]);
    expect(asked(16)).toEqual(['too-many-choices']);
  });

  it('a common cycle whose last stage may be left out', () => {
    const layout = layoutOf(
      { A: {}, B: asks('b') },
      { stages: [stage('1', ['A'], 10), stage('2', ['B'], 10, skip)], group: 'street' },
    );
    layout.groups = [{ id: 'street', name: 'Street', board: 'b1', cycle: 60 }];
    expect(compiled(layout).told).toEqual(['error last-stage-not-fixed sites[0].stages[1]']);
  });
});
