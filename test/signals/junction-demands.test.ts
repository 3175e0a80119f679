/** Junctions that wait for people and vehicles, second by second. */
import { describe, expect, it } from 'vitest';
import { encodeTable } from '../../shared/table/encode.ts';
import { pedestrianStage } from '../fixtures/sites/pedestrian-stage.ts';
import { vehicleActuated } from '../fixtures/sites/vehicle-actuated.ts';
import { detect, tap } from '../interpreter/acts.ts';
import { compiled, layoutOf, rowsOf, tableOf, watch } from './junctions.ts';

const stage = (id: string, phases: string[], green: number, more: object = {}) => ({ id, phases, green, ...more });
const onFoot = { lamps: 'RG', kind: 'pedestrian', demand: ['button'] };

describe('an all-red pedestrian stage', () => {
  const layout = layoutOf(
    { A: {}, B: {}, P: { ...onFoot, clearance: 5 } },
    { stages: [stage('1', ['A'], 10), stage('2', ['B'], 8), stage('3', ['P'], 6, { skip: true })], allRed: 1 },
  );

  it('has the rows that a person would write by hand', () => {
    const rows = tableOf(layout).programs[0]?.rows ?? [];
    const byHand = pedestrianStage.programs[0]?.rows ?? [];
    expect(rows.map((row) => ('states' in row ? row.states : row))).toEqual(
      byHand.map((row) => ('states' in row ? row.states : row)),
    );
  });

  it('comes after a press, also one made in the amber before it', () => {
    expect(watch(tableOf(layout), 45_000, tap(25_000, 0))).toEqual([
      '0 ..G R.. R.',
      '10000 .A. R.. R.',
      '13000 R.. R.. R.',
      '14000 R.. RA. R.',
      '16000 R.. ..G R.',
      '24000 R.. .A. R.',
      '27000 R.. R.. R.',
      '28000 R.. R.. .G',
      '34000 R.. R.. ..',
      '39000 RA. R.. R.',
      '41000 ..G R.. R.',
    ]);
  });

  it('flashes red in the USA and goes red at once in Germany', () => {
    const clearing = (practice: string): string | undefined => {
      const table = tableOf(
        layoutOf(
          { A: {}, P: { ...onFoot, minGreen: 7 } },
          { stages: [stage('1', ['A'], 15), stage('2', ['P'], 9)] },
          practice,
        ),
      );
      return rowsOf(table).find((row) => row.includes('clearance'));
    };
    expect(clearing('uk-today')).toMatch(/R\.\. \.\.$/);
    expect(clearing('usa-today')).toMatch(/R\.\. r\.$/);
    expect(clearing('germany-today')).toMatch(/R\.\. R\.$/);
  });
});

describe('a vehicle-actuated junction', () => {
  const asks = (id: string) => ({ demand: [id] });
  const extended = { skip: true, extend: { maximum: 20 } };
  const table = tableOf(
    layoutOf(
      { A: asks('a'), B: asks('b') },
      { stages: [stage('1', ['A'], 7, extended), stage('2', ['B'], 7, extended)], allRed: 1 },
    ),
  );

  it('has the eight rows that a person would write by hand', () => {
    const shown = (rows: readonly object[]) => rows.map((row) => ({ ...row, min: 0, gap: 0, max: 0, dial: 0 }));
    expect(shown(table.programs[0]?.rows ?? [])).toEqual(shown(vehicleActuated.programs[0]?.rows ?? []));
  });

  it('counts the maximum from the opposing demand on (667/HB/32900, p. 72-73)', () => {
    const acts = [...detect(1000, 50_000, 0), ...tap(20_000, 1)].sort(([a], [b]) => a - b);
    expect(watch(table, 47_000, acts)).toEqual([
      '0 ..G R..',
      '40001 .A. R..',
      '43001 R.. R..',
      '44001 R.. RA.',
      '46001 R.. ..G',
    ]);
  });

  it('has gaps and maxima that cannot be turned to call a stage for ever', () => {
    const limits = table.programs[0]?.dials.flatMap(({ name, min, max }) =>
      /gap|maximum/.test(name) ? [`${name} ${min} to ${max}`] : [],
    );
    expect(limits).toEqual(['gap 0 to 7000', 'maximum-1 7000 to 255000', 'maximum-2 7000 to 255000']);
  });

  it('goes back to the stage to wait in when nobody asks for anything', () => {
    const rests = tableOf(
      layoutOf(
        { A: asks('a'), B: asks('b') },
        { stages: [stage('1', ['A'], 7, { skip: true }), stage('2', ['B'], 8, extended)], rest: '1' },
      ),
    );
    expect(watch(rests, 600_000, tap(30_000, 1))).toEqual([
      '0 ..G R..',
      '30001 .A. R..',
      '33001 R.. RA.',
      '35001 R.. ..G',
      '43001 R.. .A.',
      '46001 RA. R..',
      '48001 ..G R..',
    ]);
  });
});

describe('three stages, two of them on demand', () => {
  const table = tableOf(
    layoutOf(
      { A: {}, B: { demand: ['b'] }, C: { demand: ['c'] } },
      { stages: [stage('1', ['A'], 10), stage('2', ['B'], 8, { skip: true }), stage('3', ['C'], 9, { skip: true })] },
    ),
  );

  it('take the shortest way round: from B to C, from A to C, and back', () => {
    const greens = watch(table, 120_000, [...tap(5000, 1), ...tap(40_000, 0), ...tap(40_500, 1)])
      .filter((line) => line.includes('G'))
      .map((line) => line.replace(/ .*G.*/, (it) => ` ${'ABC'.charAt(it.trim().split(' ').indexOf('..G'))}`));
    expect(greens).toEqual(['0 A', '15000 C', '29000 A', '45001 B', '58001 C', '72001 A']);
  });

  it('keep the intergreen of a change that jumps over a stage, and of stages that do not meet', () => {
    // From A to C 12 s, from A by B to C only 5 + 8 + 5.
    const plan = (green: number, intergreen: number) =>
      compiled(
        layoutOf(
          { A: {}, B: { demand: ['b'], minGreen: 2 }, C: { demand: ['c'] } },
          {
            stages: [
              stage('1', ['A'], 10),
              stage('2', ['B'], green, { skip: true }),
              stage('3', ['C'], 9, { skip: true }),
            ],
            intergreens: { A: { C: intergreen } },
          },
        ),
      ).told;
    expect(plan(8, 18)).toEqual([]);
    expect(plan(8, 19)).toEqual(['error intergreen-short sites[0].stages[1].green']);
  });
});

it('a green that ends late has less time to clear before the stage after next', () => {
  // D ends 4 s after stage 1; of the change, which its amber makes 7 s long, 3 s are left, then 8 s of B and 5 s.
  const told = (intergreen: number) =>
    compiled(
      layoutOf(
        { A: {}, B: { minGreen: 2 }, C: {}, D: {} },
        {
          stages: [stage('1', ['A', 'D'], 10), stage('2', ['B'], 8), stage('3', ['C'], 8), stage('4', ['B', 'D'], 8)],
          intergreens: { D: { C: intergreen } },
          delays: [{ phase: 'D', from: '1', end: 4 }],
        },
      ),
    ).told;
  expect(told(16)).toEqual([]);
  expect(told(17)).toEqual(['error intergreen-short sites[0].stages[1].green']);
});

it('a delay lets one phase start late and another end late', () => {
  const table = tableOf(
    layoutOf(
      { A: {}, C: {}, B: {} },
      {
        stages: [stage('1', ['A', 'C'], 15), stage('2', ['B'], 10)],
        delays: [
          { phase: 'C', from: '1', end: 2 },
          { phase: 'C', to: '1', start: 3 },
        ],
      },
    ),
  );
  expect(watch(table, 43_000)).toEqual([
    '0 ..G ..G R..',
    // A stops; C goes on for 2 s and has its own 5 s before B.
    '15000 .A. ..G R..',
    '17000 .A. .A. R..',
    '18000 R.. .A. R..',
    '20000 R.. R.. RA.',
    '22000 R.. R.. ..G',
    '32000 R.. R.. .A.',
    '35000 RA. R.. R..',
    '37000 ..G R.. R..',
    '38000 ..G RA. R..',
    '40000 ..G ..G R..',
  ]);
});

it('on a common cycle skipped time goes to the last stage, and the first begins in step', () => {
  const layout = layoutOf(
    { A: {}, B: {}, P: onFoot },
    {
      stages: [stage('1', ['A'], 10), stage('2', ['P'], 6, { skip: true }), stage('3', ['B'], 8)],
      group: 'street',
      offset: 4,
    },
  );
  layout.groups = [{ id: 'street', name: 'Street', board: 'b1', cycle: 60 }];
  const table = tableOf(layout);
  const begins = watch(table, 200_000, tap(70_000, 0))
    .filter((line) => line.includes('..G R.. R.'))
    .map((line) => Number(line.split(' ')[0]));
  // The change to stage 1 begins 4 s after the cycle and takes 5 s.
  expect(begins).toEqual([0, 69_001, 129_001, 189_001]);
});

it('fits the smallest chip: three roads and people on foot, all on demand', () => {
  const skip = { skip: true };
  const layout = layoutOf(
    { A: { demand: ['a'] }, B: { demand: ['b'] }, C: { demand: ['c'] }, P: onFoot },
    {
      stages: [
        stage('1', ['A'], 10, skip),
        stage('2', ['B'], 8, skip),
        stage('3', ['C'], 8, skip),
        stage('4', ['P'], 6, skip),
      ],
      rest: '1',
    },
  );
  layout.boards[0].chip = 'atmega328p';
  for (const [index, input] of layout.inputs.entries()) input.pin = `A${index}`;
  const table = tableOf(layout);
  expect(table.programs[0]?.rows.length).toBeLessThanOrEqual(30);
  expect(encodeTable(table).free).toBeGreaterThan(200);
});
