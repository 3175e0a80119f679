/** The published JSON Schema, read by an independent validator, says what the program says. */
import { readdirSync, readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layoutJsonSchema } from '../../shared/layout/json-schema.ts';
import { LAYOUT_SCHEMA_NAME, LayoutSchema } from '../../shared/layout/schema.ts';
import { writeJson, writeLayout } from '../../shared/layout/write.ts';
import { fortyLamps } from '../panel/forty-lamps.ts';
import { oneOfEach } from '../panel/one-of-each.ts';
import { type Edits, edited, type Loose, layoutWithRows } from './small.ts';

const FOLDER = new URL('../../shared/layout/', import.meta.url);
const published = readFileSync(new URL('layout.schema.json', FOLDER), 'utf8');
const ajv = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false, validateFormats: false });
const validate = ajv.compile(JSON.parse(published));

const isGood = (layout: unknown): boolean => LayoutSchema.safeParse(layout).success;
const both = (layout: unknown): [program: boolean, schema: boolean] => [isGood(layout), validate(layout) === true];

it('is what the program would write now', () => {
  expect(published).toBe(writeJson(layoutJsonSchema()));
});

it('has the name that files bear', () => {
  const { $id, $schema } = JSON.parse(published);
  expect([$id, $schema]).toEqual([LAYOUT_SCHEMA_NAME, 'https://json-schema.org/draft/2020-12/schema']);
  expect(JSON.parse(writeLayout(oneOfEach())).$schema).toBe($id);
});

describe('good layouts', () => {
  const examples = readdirSync(new URL('examples/', FOLDER)).map((name): [string, Loose] => [
    name,
    JSON.parse(readFileSync(new URL(`examples/${name}`, FOLDER), 'utf8')),
  ]);
  it.each<[string, Loose]>([
    ...examples,
    ['one of each kind', JSON.parse(writeLayout(oneOfEach()))],
    ['forty lamps', JSON.parse(writeLayout(fortyLamps()))],
    ['rows', layoutWithRows()],
    [
      'times in hundredths',
      edited(layoutWithRows(), { 'sites.0.stages.0.green': 18.07, 'sites.2.dials.0.value': 1.1 }),
    ],
    ['whole seconds beyond', edited(layoutWithRows(), { 'sites.0.stages.0.green': 400 })],
    ['a scale of its own', edited(layoutWithRows(), { scale: 'custom', ratio: 50 })],
  ])('%s: both take it', (_, layout) => {
    expect(both(layout)).toEqual([true, true]);
  });
});

describe('bad layouts', () => {
  const cases: readonly [string, Edits][] = [
    ['no boards', { boards: [] }],
    ['no sites', { sites: [] }],
    ['no name', { name: undefined }],
    ['a name of blanks', { name: '   ' }],
    ['a long name', { name: 'x'.repeat(61) }],
    ['an unknown field', { mood: 'dusk' }],
    ['an unknown field of a lamp', { 'sites.0.phases.0.lamps.red.glow': 1 }],
    ['an unknown kind', { 'sites.0.kind': 'roundabout' }],
    ['an id with blanks', { 'sites.0.id': 'the cross' }],
    ['a green of zero', { 'sites.0.stages.0.green': 0 }],
    ['a green below zero', { 'sites.0.stages.0.green': -1 }],
    ['a green beyond the board', { 'sites.0.stages.0.green': 32768 }],
    ['hundredths where the board counts seconds', { 'sites.0.stages.0.green': 400.5 }],
    ['a time in quotes', { 'sites.0.stages.0.green': '18' }],
    ['a full turn', { 'sites.1.place': { x: 1, y: 1, turn: 360 } }],
    ['a road of one point', { roads: [{ id: 'r', name: 'R', width: 90, points: [[1, 2]] }] }],
    [
      'a point of three numbers',
      {
        roads: [
          {
            id: 'r',
            name: 'R',
            width: 90,
            points: [
              [1, 2, 3],
              [4, 5],
            ],
          },
        ],
      },
    ],
    ['another chip', { 'boards.0.chip': 'attiny' }],
    ['a custom scale without a ratio', { scale: 'custom' }],
    ['another version', { version: 2 }],
    ['another format', { format: 'something' }],
    ['a row that is not known', { 'sites.2.rows.0.do': 'wait' }],
    ['a state that is not known', { 'sites.2.rows.0.show': { white: 'on' } }],
    ['mains', { 'boards.0.power': { volts: 230 } }],
  ];
  it.each(cases)('%s: neither takes it', (_, edits) => {
    expect(both(edited(layoutWithRows(), edits))).toEqual([false, false]);
  });
});

it('with any one value replaced by another both say the same', () => {
  const text = writeLayout(oneOfEach());
  const places = leaves(JSON.parse(text));
  const values = fc.constantFrom<unknown>(
    'A',
    '',
    ' x ',
    'D2',
    0,
    -1,
    1,
    7.5,
    400,
    1e9,
    true,
    null,
    [],
    {},
    [1, 2],
    undefined,
  );
  let good = 0;
  let bad = 0;
  fc.assert(
    fc.property(fc.constantFrom(...places), values, (place, value) => {
      const layout = JSON.parse(text);
      const last = place.at(-1) ?? '';
      const within = place.slice(0, -1).reduce((at, step) => at[step], layout);
      if (value === undefined && !Array.isArray(within)) delete within[last];
      else within[last] = value ?? null;
      const [program, schema] = both(layout);
      expect(schema).toBe(program);
      if (program) good += 1;
      else bad += 1;
    }),
    { numRuns: 1500 },
  );
  expect([good, bad].every((count) => count > 100)).toBe(true);
});

function leaves(value: Loose, path: string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, item]) => leaves(item, [...path, key]))].filter(
    (it) => it.length > 0,
  );
}
