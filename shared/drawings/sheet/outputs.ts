/** The tables of one board: its lamps site by site, and its inputs. */
import { isWire } from '../../electrics/loads.ts';
import type { Load } from '../../electrics/model.ts';
import { loadCurrents } from '../../electrics/resistors.ts';
import { pinName } from '../../signals/pins.ts';
import type { InputPin } from '../../table/model.ts';
import { type Column, heading, html, type Part, paragraph, table } from './html.ts';
import type { SheetBoard } from './model.ts';
import {
  bandsText,
  checkWords,
  commonText,
  headsText,
  lampText,
  milliampsText,
  polarityText,
  portOf,
  resistorText,
} from './words.ts';

export function outputsSection(sheet: SheetBoard): string {
  const { loads, compiled, board } = sheet;
  const columns: Column<Load>[] = [
    { head: 'Output', strong: true, cell: (it) => [it.outputName, portOf(board.chip, it.output)] },
    { head: 'Head', strong: true, cell: headsCell },
    { head: 'Lamp and wire', cell: lampCell },
    { head: 'Resistor', cell: resistorCell },
    { head: 'Current', cell: (it) => currentCell(it) },
    { head: 'Lamp check', strong: true, cell: (it) => checkCell(sheet, it) },
  ];
  return html(
    'section',
    {},
    heading(`${compiled.name}: lamps`),
    loads.length === 0 ? paragraph('No lamps hang on this board.') : table('outputs', columns, siteParts(loads)),
    inputsTable(sheet),
  );
}

/** One part for each site, then what belongs to none. */
function siteParts(loads: readonly Load[]): Part<Load>[] {
  const sites = new Map<string | null, Load[]>();
  for (const load of loads) sites.set(load.site, [...(sites.get(load.site) ?? []), load]);
  return [...sites].map(([site, rows]) => ({
    title: site === null ? 'Indicators and sync outputs' : (rows[0]?.siteName ?? site),
    rows,
  }));
}

/** Heads that share an output under its own name, without repeating that name. */
function headsCell(load: Load): string[] {
  const { heads, label } = load;
  if (heads.length < 2) return [headsText(load)];
  const short = heads.map(({ name }) => (name.startsWith(`${label}, `) ? name.slice(label.length + 2) : name));
  return [label, `${heads.length} heads: ${short.join('; ')}`];
}

const DRIVERS = { direct: [], transistor: ['behind a transistor'], 'power-register': ['power register'] };

const lampCell = (load: Load): string[] => [lampText(load), `${load.wire} wire`, ...DRIVERS[load.circuit.driver]];

function resistorCell(load: Load): string[] {
  const bands = bandsText(load);
  const each = load.heads.length > 1 && typeof load.circuit.resistor === 'number' ? ' in each head' : '';
  return [`${resistorText(load)}${each}`, ...(bands === '' ? [] : [bands])];
}

/** Through the lamps of all heads at most. */
function currentText(load: Load): string {
  return isWire(load) ? 'none' : milliampsText(loadCurrents(load).lamps);
}

/** A figure and its unit stay on one line. */
const currentCell = (load: Load): string[] => [
  `${currentText(load)} to ${commonText(load)}`.replaceAll(/(\d) (mA|V)/g, '$1\u00a0$2'),
  polarityText(load),
];

function checkCell(sheet: SheetBoard, load: Load): string[] {
  const { words, about, note } = checkWords(sheet, load);
  return [words, about, note].filter((line) => line !== '');
}

function inputsTable({ compiled, board }: SheetBoard): string {
  const { inputs } = compiled.table;
  if (inputs.length === 0) return '';
  const columns: Column<InputPin>[] = [
    { head: 'Pin', strong: true, cell: (it) => [pinName(it.pin, board.chip), portOf(board.chip, it.pin)] },
    { head: 'Button, detector or switch', cell: (it) => it.name },
    {
      head: 'Wired to',
      cell: (it) => (it.activeLow ? 'GND: pressed or occupied means low' : '+5 V: active means high'),
    },
    {
      head: 'Pull-up',
      cell: (it) => (it.pullUp ? 'in the chip, nothing to add' : 'none in the chip: the wire must never float'),
    },
  ];
  return `${heading(`${compiled.name}: inputs`)}${table('inputs', columns, [{ title: null, rows: inputs }])}`;
}
