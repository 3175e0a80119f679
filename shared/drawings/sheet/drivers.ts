/** Lamps behind transistors: one drawing of how each is wired, and its base resistor. */
import { bandsOf, ohmsText } from '../../electrics/bands.ts';
import type { Load } from '../../electrics/model.ts';
import { baseFor } from '../../electrics/parts.ts';
import { loadCurrents } from '../../electrics/resistors.ts';
import { BOARD_VOLTS } from '../../electrics/usual.ts';
import { element, group, words } from '../svg.ts';
import { TEXT_MM } from './block.ts';
import { heading, html, list, table } from './html.ts';
import type { SheetBoard } from './model.ts';
import { commonText, headsText, milliampsText } from './words.ts';

/** Empty where no lamp has a transistor. */
export function driversSection(sheet: SheetBoard): string {
  const loads = sheet.loads.filter(({ circuit }) => circuit.driver === 'transistor');
  if (loads.length === 0) return '';
  const columns = [
    { head: 'Output', strong: true, cell: (load: Load) => load.outputName },
    { head: 'Lamps', cell: headsText },
    { head: 'Base resistor', cell: (load: Load) => baseText(sheet, load) },
    { head: 'Through the transistor', cell: (load: Load) => milliampsText(loadCurrents(load).lamps) },
    { head: 'Lamps fed by', cell: commonText },
  ];
  return html(
    'section',
    { class: 'page' },
    heading(`${sheet.compiled.name}: lamps behind transistors`),
    html('figure', {}, drawing()),
    list([
      'An NPN transistor switches the lamps to ground; their other side goes to the plus of their own supply.',
      'Join the ground of that supply with the ground of the board, or nothing lights.',
      'Look the order of the legs up in the data sheet of the transistor that you have: it differs from type to type.',
    ]),
    table('drivers', columns, [{ title: null, rows: loads }]),
  );
}

function baseText({ layout, board }: SheetBoard, load: Load): string[] {
  const base = baseFor(load, layout, board.power?.volts ?? BOARD_VOLTS.value);
  if (base === null) return [];
  return [ohmsText(base.ohms), bandsOf(base.ohms, 4)?.join(' ') ?? ''];
}

const WIDTH = 130;
const HEIGHT = 56;

/** Output, base resistor, transistor, lamp with its resistor, supply and ground. Lengths are mm. */
function drawing(): string {
  const lead = (d: string): string => element('path', { class: 'wire', d });
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: `${WIDTH}mm`,
      height: `${HEIGHT}mm`,
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      'font-size': TEXT_MM,
      role: 'img',
      'aria-label': 'Output, base resistor, transistor, lamp and its resistor, supply and ground',
    },
    words('output', { x: 0, y: 34, class: 'bold' }),
    lead('M15 34H28M42 34H62'),
    element('rect', { class: 'hollow', x: 28, y: 32, width: 14, height: 4 }),
    words('base resistor', { x: 35, y: 28, anchor: 'middle' }),
    group(
      {},
      element('circle', { class: 'hollow', cx: 66, cy: 34, r: 7 }),
      element('path', { class: 'wire', d: 'M62 29.5V38.5M62 31.5L69 28.5M62 36.5L69 39.5' }),
      element('path', { class: 'solid', d: 'M69 39.5L65.9 39.6L67.1 36.9Z' }),
    ),
    words('NPN', { x: 75, y: 34 }),
    lead('M69 28.5V21M69 17V13M69 9V4H95M69 39.5V51H95'),
    element('rect', { class: 'hollow', x: 67, y: 13, width: 4, height: 8 }),
    element('circle', { class: 'hollow', cx: 69, cy: 9, r: 2.6 }),
    words('lamp', { x: 74, y: 9 }),
    words('its resistor', { x: 74, y: 17 }),
    words('+ of the lamps', { x: 97, y: 4, class: 'bold' }),
    words('GND', { x: 97, y: 51, class: 'bold' }),
  );
}
