/** What stands at the head of a board's sheet: which layout, which board, and the cautions. */
import type { BudgetLine } from '../../electrics/budget.ts';
import { html, list, paragraph, text } from './html.ts';
import type { SheetBoard, SheetOptions } from './model.ts';
import { checkWords, momentText } from './words.ts';

const CHIPS = { atmega328p: 'ATmega328P', atmega2560: 'ATmega2560' } as const;

export const CAUTIONS: readonly string[] = [
  'Extra-low voltage only: never above 24 V, and nothing here is ever joined to the mains.',
  'Switch the supply off and unplug the computer before you solder or move a wire.',
  'A soldering iron is hotter than 300 °C. Wear glasses, keep air moving, wash your hands afterwards.',
  'Never an LED without its resistor. If anything gets warm, switch off: it is wired wrongly.',
  'Fuse a supply that can give more than the layout takes. Lamps on a model only, never for real traffic.',
];

export function titleBlock(sheet: SheetBoard, options: SheetOptions): string {
  const { layout, board, compiled, hash } = sheet;
  const facts: [string, string][] = [
    ['Board', `${compiled.name}, ${CHIPS[board.chip]}`],
    ['Fed by', fedBy(sheet)],
    ...currentLines(sheet).map((line, at): [string, string] => [at === 0 ? 'Currents' : '', line]),
    ['File', options.file],
    ['Table hash', hash ?? 'none: the table does not fit into the board'],
    ['Printed', options.date],
    ['Lamp check', checkSummary(sheet)],
  ];
  return html(
    'header',
    {},
    html('h1', {}, text(`${layout.name}: wiring sheet`)),
    html(
      'dl',
      { class: 'title' },
      ...facts.flatMap(([name, value]) => [html('dt', {}, name), html('dd', {}, text(value))]),
    ),
    html('div', { class: 'cautions' }, paragraph('Cautions'), list(CAUTIONS)),
    findingsBox(sheet),
  );
}

/** Nobody should solder what the plan itself calls wrong. */
function findingsBox({ findings }: SheetBoard): string {
  const told = findings.filter(({ severity }) => severity !== 'note');
  if (told.length === 0) return '';
  return html(
    'div',
    { class: 'cautions' },
    paragraph('To be mended in the plan before anything is soldered'),
    list(told.map(({ what, cure }) => `${what} ${cure}`)),
  );
}

function fedBy({ board }: SheetBoard): string {
  const { from = 'usb', volts = 5, milliamps } = board.power ?? {};
  const most = milliamps === undefined ? '' : `, at most ${milliamps} mA`;
  return `${from === 'usb' ? 'USB' : 'a supply of its own'}, ${volts} V${most}`;
}

/** What each supply has to give. */
function currentLines({ budget }: SheetBoard): string[] {
  return budget.lines.filter(({ is }) => is === 'supply').map(supplyText);
}

function supplyText({ name, worst, exact, average, limit }: BudgetLine): string {
  const most = `${exact ? '' : 'no more than '}${Math.ceil(worst)} mA at worst`;
  const may = limit === null ? 'what it can give is not known' : `it can give ${Math.round(limit)} mA`;
  return `${name}: ${most}, ${Math.round(average)} mA on average; ${may}`;
}

/** `38 of 40 right; finished 25 Nov 2026, 19:04, by Ann`. */
export function checkSummary(sheet: SheetBoard): string {
  const { check, loads } = sheet;
  if (check === null) return 'not done';
  const right = loads.filter((load) => checkWords(sheet, load).state === 'right').length;
  const when = check.ended === undefined ? `begun ${momentText(check.began)}` : `finished ${momentText(check.ended)}`;
  return `${right} of ${loads.length} lamps right; ${when}${check.by === undefined ? '' : `, by ${check.by}`}`;
}
