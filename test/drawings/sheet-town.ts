/** A layout that has everything a wiring sheet can show: two boards, a chain, drivers, shared outputs, buttons, a check. */
import type { SheetOptions } from '../../shared/drawings/sheet/model.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';

export const OPTIONS: SheetOptions = { date: '25 November 2026', file: 'penmarrow.json' };

const lamps = (count: number, first: number, more: object = {}) =>
  Array.from({ length: count }, (_, at) => ({ id: `l${at}`, name: `Lamp ${at + 1}`, pin: `D${first + at}`, ...more }));

const CHECK: CheckRecord = {
  board: 'town',
  by: 'Ann & Bob',
  began: '2026-11-25T19:00:00+00:00',
  ended: '2026-11-25T19:30:00+00:00',
  lamps: [
    {
      site: 'parade',
      label: 'Lamp 1',
      colour: 'warm-white',
      output: 'D22',
      result: 'right',
      at: '2026-11-25T19:04:00+00:00',
    },
    {
      site: 'parade',
      label: 'Lamp 2',
      colour: 'warm-white',
      output: 'D23',
      result: 'dark',
      at: '2026-11-25T19:05:00+00:00',
    },
    {
      site: 'parade',
      label: 'Lamp 3',
      colour: 'warm-white',
      output: 'D2',
      result: 'right',
      at: '2026-11-25T19:06:00+00:00',
    },
    {
      ...{ site: 'parade', label: 'Lamp 4', colour: 'warm-white', output: 'D25', result: 'wrong' },
      ...{ saw: [{ site: 'parade', label: 'Lamp 5', colour: 'warm-white' }], note: 'swapped at the strip' },
      at: '2026-11-25T19:07:00+00:00',
    } as const,
  ],
};

const TOWN = {
  format: 'amberwick-layout',
  version: 1,
  name: 'Penmarrow <Parade> & "Quay"',
  scale: 'OO',
  practice: 'uk-today',
  boards: [
    {
      ...{ id: 'town', name: 'Town board', chip: 'atmega2560' },
      chain: { chips: 2, data: 'D51', clock: 'D52', latch: 'D53', enable: 'D49' },
    },
    { id: 'quay', name: 'Quay board', chip: 'atmega328p', power: { from: 'external', volts: 5, milliamps: 1000 } },
  ],
  inputs: [
    { id: 'push', name: 'Button by the chandler', board: 'quay', pin: 'A0', indicator: { pin: 'A1' } },
    { id: 'train', name: 'Train near', board: 'quay', pin: 'A2', activeLow: false, pullUp: false },
  ],
  sites: [
    { kind: 'street-lamps', id: 'parade', name: 'Parade', board: 'town', lamps: lamps(20, 22) },
    {
      ...{ kind: 'street-lamps', id: 'hill', name: 'Chapel Hill and the lane behind the old brewery', board: 'town' },
      lamps: [
        {
          id: 'f',
          name: 'Lantern at the corner of the churchyard',
          bit: 0,
          electrics: { driver: 'power-register', volts: 12 },
          source: 'smallFilament',
        },
        {
          id: 's',
          name: 'Three in a row',
          bit: 3,
          electrics: { driver: 'power-register', volts: 12, count: 3, wired: 'series' },
        },
        { id: 'b', name: 'Bit nine', bit: 9 },
        { id: 't', name: 'Twelve volts', pin: 'D3', electrics: { driver: 'transistor', volts: 12, count: 4 } },
        { id: 'a', name: 'Anode', pin: 'A15', activeLow: true, wire: 'turquoise' },
        { id: 'x', name: 'Bought', pin: 'A14', electrics: { resistor: 'fitted' } },
      ],
    },
    {
      ...{ kind: 'pelican', id: 'crossing', name: 'Quay crossing', board: 'quay', buttons: ['push'] },
      vehicles: { red: { pin: 'D2' }, amber: { pin: 'D3' }, green: { pin: 'D4' } },
      pedestrians: { red: { pin: 'D5' }, green: { pin: 'D6' } },
      heads: [
        { id: 'n', name: 'From the north', kind: 'vehicle', arm: 0 },
        { id: 's', name: 'From the south', kind: 'vehicle', arm: 180 },
        { id: 'w', name: 'West kerb', kind: 'pedestrian' },
        { id: 'e', name: 'East kerb', kind: 'pedestrian' },
      ],
    },
    {
      ...{ kind: 'level-crossing', id: 'level', name: 'Quay level crossing', board: 'quay', detectors: ['train'] },
      lights: { amber: { pin: 'D7' }, left: { pin: 'D8' }, right: { pin: 'D9' } },
    },
  ],
  checks: [CHECK],
};

export function sheetTown(): { layout: Layout; boards: readonly CompiledBoard[] } {
  const { layout, findings } = parseLayout(JSON.stringify(TOWN));
  if (layout === null) throw new Error(JSON.stringify(findings));
  const made = compileLayout(layout);
  if (made.boards.length < 2) throw new Error(JSON.stringify(made.findings));
  return { layout, boards: made.boards };
}
