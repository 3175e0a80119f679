/** Files that are no layout, or not quite: one finding each. */
import { describe, expect, it } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import { layoutWithRows, smallLayout } from './small.ts';
import { expectOneFinding, findingsOf, type Mistake } from './told.ts';

const R = 'sites.2';
const MILLION = { chips: 1e6, data: 'D10', clock: 'D11', latch: 'D12' };

const DOCUMENT: readonly Mistake[] = [
  ['unknown key', { 'sites.0.stages.0.gren': 18 }, 'warning unknown-key sites[0].stages[0].gren'],
  ['unknown kind of site', { 'sites.0.kind': 'roundabout' }, 'error wrong-value sites[0].kind'],
  ['site that is a number', { 'sites.0': 7 }, 'error wrong-value sites[0]'],
  ['id with spaces', { 'sites.0.id': 'the cross' }, 'error bad-id sites[0].id'],
  ['empty name', { 'sites.0.name': '  ' }, 'error empty-name sites[0].name'],
  ['name missing', { name: undefined }, 'error missing name'],
  ['wrong format', { format: 'something' }, 'error wrong-format format'],
  ['newer version', { version: 2 }, 'warning newer-version version'],
  ['version in words', { version: 'one' }, 'error wrong-version version'],
  [
    'beside the baseboard',
    { baseboard: { width: 9, depth: 9 }, 'sites.1.place': { x: 10, y: 1 } },
    'warning off-the-baseboard sites[1].place',
  ],
  ['a full turn', { 'sites.1.place': { x: 1, y: 1, turn: 360 } }, 'error bad-angle sites[1].place.turn'],
  ['a baseboard without width', { baseboard: { width: 0, depth: 900 } }, 'error zero-length baseboard.width'],
  ['a baseboard of a kilometre', { baseboard: { width: 1e6, depth: 900 } }, 'error odd-length baseboard.width'],
  ['a site far away', { 'sites.1.place': { x: 1e12, y: 1 } }, 'error far-away sites[1].place.x'],
  ['a chain of a million chips', { 'boards.0.chain': MILLION }, 'error many-chips boards[0].chain.chips'],
  ['a chain of no chips', { 'boards.0.chain': { ...MILLION, chips: 0 } }, 'error no-chips boards[0].chain.chips'],
  [
    'road without length',
    { roads: [{ id: 'r', name: 'R', width: 90, points: [[1, 2]] }] },
    'error short-road roads[0].points',
  ],
];

const until = (when: object) => ({ do: 'until', least: 'on', when, show: {} });
const jump = (to: string) => ({ do: 'jump', label: 'j', when: { is: 'inactive', inputs: [] }, to });

const ROWS: readonly Mistake[] = [
  ['unknown lamp', { [`${R}.rows.0.show`]: { green: 'lit' } }, 'error unknown-lamp sites[2].rows[0].show.green'],
  ['unknown state', { [`${R}.rows.0.show`]: { white: 'on' } }, 'error wrong-value sites[2].rows[0].show.white'],
  ['unknown dial', { [`${R}.rows.0.dial`]: 'onn' }, 'error unknown-dial sites[2].rows[0].dial'],
  ['unknown row', { [`${R}.rows.2`]: jump('dark') }, 'error unknown-row sites[2].rows[2].to'],
  [
    'unknown input',
    { [`${R}.rows.0`]: until({ is: 'demand', inputs: ['b'] }) },
    'error unknown-input sites[2].rows[0].when.inputs[0]',
  ],
  ['unknown do', { [`${R}.rows.0.do`]: 'wait' }, 'error wrong-value sites[2].rows[0].do'],
  ['dial of zero', { [`${R}.dials.0.value`]: 0 }, 'error zero-time sites[2].dials[0].value'],
  ['dial outside its limits', { [`${R}.dials.0.greatest`]: 1.5 }, 'error time-outside-limits sites[2].dials[0].value'],
  ['dial that may be zero', { [`${R}.dials.0.least`]: 0 }, 'error time-outside-limits sites[2].dials[0]'],
  [
    'chance outside a jump',
    { [`${R}.rows.0`]: until({ is: 'chance', outOf256: 9 }) },
    'error condition-not-here sites[2].rows[0].when',
  ],
  [
    'sync without a group',
    { [`${R}.rows.0`]: { do: 'sync', least: 'on', offset: 'off', show: {} } },
    'error sync-without-group sites[2].rows[0]',
  ],
  ['no interval', { [`${R}.rows`]: [jump('j')] }, 'error no-interval sites[2].rows'],
  ['two rows of one label', { [`${R}.rows.1.label`]: 'lit' }, 'error duplicate-id sites[2].rows[1].label'],
  [
    'conflicting lamps',
    {
      [`${R}.lamps.1`]: { id: 'red', colour: 'red', pin: 'D10' },
      [`${R}.conflicts`]: [['white', 'red']],
      [`${R}.rows.0.show`]: { white: 'lit', red: 'flash' },
    },
    'error conflicting-lamps sites[2].rows[0].show',
  ],
  [
    'too many dials',
    { [`${R}.dials`]: ['on', 'off', ...'cdefghijklmnop'].map((id) => ({ id, value: 1 })) },
    'error too-many-dials sites[2]',
  ],
];

describe('one finding for the document:', () => {
  it.each(DOCUMENT)('%s', (_, edits, expected) => expectOneFinding(smallLayout(), edits, expected));
});

describe('one finding for a site given row by row:', () => {
  it.each(ROWS)('%s', (_, edits, expected) => expectOneFinding(layoutWithRows(), edits, expected));
});

describe('one finding for text that is no layout:', () => {
  const good = JSON.stringify(smallLayout(), null, 2);
  const lines = good.split('\n').length;

  it.each([
    [
      'truncated JSON',
      good.slice(0, -1),
      'json-truncated',
      `Line ${lines}, column 1: the end of the file where a comma or } was expected.`,
    ],
    ['cut in a text', '{ "na', 'json-truncated', 'Line 1, column 6: the end of the file inside a text in quotes.'],
    ['an empty file', '', 'json-truncated', 'Line 1, column 1: the end of the file where a value was expected.'],
    ['a comma too many', '{\n  "a": [1, 2,]\n}', 'json-syntax', 'Line 2, column 14: "]" where a value was expected.'],
    [
      'a comment',
      '{\n  // hello\n}',
      'json-syntax',
      'Line 2, column 3: a comment where a name in double quotes was expected.',
    ],
    ['a key twice', '{\n  "a": 1,\n  "a": 2\n}', 'json-duplicate-key', 'Line 3, column 3: the name "a" a second time.'],
    [
      'something after its end',
      `${good}\nx`,
      'json-syntax',
      `Line ${lines + 1}, column 1: "x" after the end of the document.`,
    ],
    [
      'brackets without end',
      '['.repeat(100000),
      'json-too-deep',
      'Line 1, column 66: more than 64 brackets inside each other.',
    ],
    ['a list', '[]', 'not-a-layout', 'The file holds a list, not a layout.'],
    ['null', 'null', 'not-a-layout', 'The file holds null, not a layout.'],
    ['a number', '12', 'not-a-layout', 'The file holds a number, not a layout.'],
  ])('%s', (_, text, code, what) => {
    expect(findingsOf(text)).toMatchObject([{ severity: 'error', code, path: '', what }]);
  });
});

it('an unknown key is told about and kept, and the rest of the layout is used', () => {
  const { layout, findings } = parseLayout(JSON.stringify({ ...smallLayout(), colour: 'blue', nots: 'x' }));
  expect(findings.map((it) => `${it.severity} ${it.code} ${it.path}`)).toEqual([
    'warning unknown-key colour',
    'warning unknown-key nots',
  ]);
  expect(layout?.name).toBe('Small town');
  expect(layout).toMatchObject({ colour: 'blue', nots: 'x' });
});
