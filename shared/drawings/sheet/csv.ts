/** The outputs and inputs of a layout as comma-separated values (RFC 4180), one row for each. */
import type { Load } from '../../electrics/model.ts';
import { loadCurrents } from '../../electrics/resistors.ts';
import { pinName } from '../../signals/pins.ts';
import type { SheetBoard } from './model.ts';
import { bandsText, checkWords, commonText, headsText, lampText, polarityText, portOf, resistorText } from './words.ts';

const HEAD = [
  'Board',
  'Output',
  'Port bit',
  'Use',
  'Site',
  'Heads',
  'Lamp',
  'Wire',
  'Resistor ohms',
  'Bands',
  'Current mA',
  'Driver',
  'Lit when',
  'Other side',
  'LED legs',
  'Check',
  'Checked',
  'Note',
] as const;

/** Lines end with CR LF, the last one too. */
export function sheetCsv(sheets: readonly SheetBoard[]): string {
  const rows = sheets.flatMap((sheet) => [
    ...sheet.loads.map((load) => lampRow(sheet, load)),
    ...inputRows(sheet),
    ...chainRows(sheet),
  ]);
  return [HEAD, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

/** A spreadsheet takes what begins with one of these for a formula: an apostrophe says that it is text. */
function cell(value: string): string {
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

function lampRow(sheet: SheetBoard, load: Load): string[] {
  const { compiled, board } = sheet;
  const found = checkWords(sheet, load);
  const { driver } = load.circuit;
  return [
    compiled.name,
    load.outputName,
    portOf(board.chip, load.output),
    'lamp',
    load.site === null ? '' : load.siteName,
    headsText(load),
    lampText(load),
    load.wire,
    ohmsOf(load),
    bandsText(load),
    String(Number(loadCurrents(load).lamps.toFixed(2))),
    driver === 'direct' ? 'none' : driver === 'transistor' ? 'transistor' : 'power register',
    load.activeLow ? 'low' : 'high',
    commonText(load).replace(/^\+/, ''),
    polarityText(load),
    found.words,
    found.about,
    found.note,
  ];
}

/** A figure that a spreadsheet can count with; words where there is no resistor to fit. */
const ohmsOf = (load: Load): string =>
  typeof load.circuit.resistor === 'number' ? String(load.circuit.resistor) : resistorText(load);

function inputRows({ compiled, board }: SheetBoard): string[][] {
  return compiled.table.inputs.map(({ name, pin, activeLow }) =>
    otherRow(
      compiled.name,
      pinName(pin, board.chip),
      portOf(board.chip, pin),
      'input',
      name,
      activeLow ? 'GND' : '5 V',
    ),
  );
}

function chainRows({ compiled, board }: SheetBoard): string[][] {
  const { chain } = compiled.table;
  if (chain === null) return [];
  const pins: readonly [string, number | null][] = [
    ['data', chain.data],
    ['clock', chain.clock],
    ['latch', chain.latch],
    ['output enable', chain.enable],
  ];
  return pins.flatMap(([name, pin]) =>
    pin === null
      ? []
      : [otherRow(compiled.name, pinName(pin, board.chip), portOf(board.chip, pin), `chain ${name}`, '', '')],
  );
}

/** What carries no lamp: `name` stands where heads do. */
function otherRow(board: string, output: string, port: string, use: string, name: string, other: string): string[] {
  return HEAD.map(
    (head) =>
      ({ Board: board, Output: output, 'Port bit': port, Use: use, Heads: name, 'Other side': other })[
        head as string
      ] ?? '',
  );
}
