/** The wiring sheet: what goes under the baseboard, as one page of HTML that stands alone and has no script. */
import type { Layout } from '../../layout/schema.ts';
import type { CompiledBoard } from '../../signals/compile.ts';
import { sheetBoards } from './boards.ts';
import { chainSection } from './chain.ts';
import { sheetCsv } from './csv.ts';
import { cutSection } from './cut.ts';
import { driversSection } from './drivers.ts';
import { heading, html, paragraph, text } from './html.ts';
import { labelsSection } from './labels.ts';
import { SHEET_PARTS, type SheetBoard, type SheetOptions, type SheetPart } from './model.ts';
import { outputsSection } from './outputs.ts';
import { partsSection } from './parts.ts';
import { pinDrawings } from './pins.ts';
import { sheetStyles } from './styles.ts';
import { titleBlock } from './title.ts';

export interface WiringSheet {
  readonly title: string;
  /** Rules, for a page whose content policy allows no style element. */
  readonly styles: string;
  /** What stands in the body; without style attributes. */
  readonly body: string;
}

export function wiringSheet(layout: Layout, compiled: readonly CompiledBoard[], options: SheetOptions): WiringSheet {
  const parts = new Set(options.parts ?? SHEET_PARTS);
  const boards = sheetBoards(layout, compiled, options);
  const title = `${layout.name}: wiring sheet`;
  const sections = boards.flatMap((board) => boardSections(board, options, parts));
  return {
    title,
    styles: sheetStyles(options.paper ?? 'a4', `${title}, ${options.date}`),
    body:
      boards.length === 0
        ? paragraph('There is no board to print: mend what is wrong with the layout first.')
        : sections.join(''),
  };
}

/** A file that needs nothing else. */
export function sheetHtml({ title, styles, body }: WiringSheet): string {
  const head = html(
    'head',
    {},
    '<meta charset="utf-8"/>',
    '<meta name="viewport" content="width=device-width, initial-scale=1"/>',
    html('title', {}, text(title)),
    html('style', {}, styles),
  );
  return `<!doctype html>\n${html('html', { lang: 'en-GB' }, head, html('body', {}, body))}\n`;
}

/** The same rows for a spreadsheet. */
export function wiringCsv(
  layout: Layout,
  compiled: readonly CompiledBoard[],
  options: Pick<SheetOptions, 'board' | 'checks'>,
): string {
  return sheetCsv(sheetBoards(layout, compiled, options));
}

function boardSections(board: SheetBoard, options: SheetOptions, parts: ReadonlySet<SheetPart>): string[] {
  const first = html(
    'section',
    { class: 'page' },
    titleBlock(board, options),
    parts.has('table') ? outputsSection(board) : '',
  );
  return [
    first,
    ...(parts.has('drawing') ? [pinsSection(board), chainSection(board), driversSection(board)] : []),
    ...(parts.has('cut') ? [cutSection(board)] : []),
    ...(parts.has('parts') ? [partsSection(board)] : []),
    ...(parts.has('labels') ? [labelsSection(board)] : []),
  ];
}

function pinsSection(board: SheetBoard): string {
  const drawings = pinDrawings(board).map((drawing) => html('figure', {}, drawing));
  return html(
    'section',
    { class: 'page' },
    heading(`${board.compiled.name}: pins and wires`),
    paragraph(
      'Read it by the names that are printed on your board; the pins may lie in another order there. ' +
        'Box: resistor. Circle: lamp with the letter of its colour. T: driver transistor. S: button, detector or switch.',
    ),
    ...drawings,
  );
}
