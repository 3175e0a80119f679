import { expect, test } from 'vitest';
import { readDocument } from '../../renderer/model/document.ts';
import { cursorAt, stripOf } from '../../renderer/strip/bars.ts';
import { PENMARROW } from './example.ts';

const { sites } = readDocument({ name: 'penmarrow.json', text: PENMARROW, version: 1 });

function strip(at: number, dials?: readonly number[]) {
  const site = sites[at];
  if (!site) throw new Error('no such site');
  return stripOf(site, dials ?? site.binding.dials);
}

const bars = (lane: ReturnType<typeof strip>['lanes'][number] | undefined) =>
  lane?.bars.map(({ from, to, shows }) => [from / 1000, to / 1000, shows]);

test('the cycle of the crossroads as bars, one lane a phase', () => {
  const { lanes, total } = strip(0);
  expect(total).toBe(42_000);
  expect(lanes.map(({ label }) => label)).toEqual(['Fore Street', 'Quay Hill']);
  expect(bars(lanes[0])).toEqual([
    [0, 18, 'green'],
    [18, 21, 'amber'],
    [21, 40, 'red'],
    [40, 42, 'red+amber'],
  ]);
  expect(bars(lanes[1])).toEqual([
    [0, 22, 'red'],
    [22, 24, 'red+amber'],
    [24, 36, 'green'],
    [36, 39, 'amber'],
    [39, 42, 'red'],
  ]);
});

test('a longer green moves everything after it along', () => {
  const [green, ...rest] = sites[0]?.binding.dials ?? [];
  const { lanes, total } = strip(0, [(green ?? 0) + 5_000, ...rest]);
  expect(total).toBe(47_000);
  expect(bars(lanes[1])?.[2]).toEqual([29, 41, 'green']);
});

test('the cursor stands where the row is in the cycle and waits at its end', () => {
  const cycle = strip(0);
  expect(cursorAt(cycle, 0, 4_000)).toBe(4_000);
  expect(cursorAt(cycle, 4, 1_000)).toBe(25_000);
  expect(cursorAt(cycle, 0, 60_000)).toBe(18_000);
  expect(cursorAt(cycle, 99, 0)).toBe(null);
});

test('beacons that only flash show two flashes, in turn', () => {
  const { lanes, total, isFlash } = strip(2);
  expect([isFlash, total]).toEqual([true, 3_000]);
  expect(bars(lanes[0])).toEqual([
    [0, 0.75, 'amber'],
    [0.75, 1.5, ''],
    [1.5, 2.25, 'amber'],
    [2.25, 3, ''],
  ]);
  expect(bars(lanes[1])?.map(([, , shows]) => shows)).toEqual(['', 'amber', '', 'amber']);
});

test('a row that waits for a demand is drawn at its least time and marked as open', () => {
  const document = JSON.parse(PENMARROW);
  document.inputs = [{ id: 'button', name: 'Button', board: 'town', pin: 'A5' }];
  document.sites[2] = {
    kind: 'program',
    id: 'gate',
    name: 'Gate',
    board: 'town',
    lamps: [{ id: 'lamp', colour: 'red', pin: 'A1' }],
    dials: [
      { id: 'least', value: 4 },
      { id: 'shut', value: 6 },
    ],
    rows: [
      { do: 'until', least: 'least', when: { is: 'demand', inputs: ['button'] }, show: {} },
      { do: 'clear', inputs: ['button'] },
      { do: 'after', dial: 'shut', show: { lamp: 'lit' } },
    ],
  };
  const open = readDocument({ name: 'gate.json', text: JSON.stringify(document), version: 1 });
  const gate = open.sites.find(({ id }) => id === 'gate');
  if (!gate) throw new Error(JSON.stringify(open.findings));
  const { rows, total, lanes } = stripOf(gate, gate.binding.dials);
  expect(total).toBe(10_000);
  expect(rows).toEqual([
    { row: 0, from: 0, to: 4_000, open: true },
    { row: 2, from: 4_000, to: 10_000, open: false },
  ]);
  expect(bars(lanes[0])).toEqual([
    [0, 4, ''],
    [4, 10, 'red'],
  ]);
});
