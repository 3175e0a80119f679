/** What one has to buy or find for a board, counted. */
import { type Part, partsOf } from '../../electrics/parts.ts';
import { heading, html, paragraph, table } from './html.ts';
import type { SheetBoard } from './model.ts';

type Line = Pick<Part, 'count' | 'what' | 'note'>;

export function partsSection(sheet: SheetBoard): string {
  const rows: Line[] = [...partsOf(sheet.layout, sheet.compiled), ...inputParts(sheet)];
  const columns = [
    { head: 'Count', strong: true, cell: ({ count }: Line) => String(count) },
    { head: 'Part', cell: ({ what }: Line) => what },
    { head: 'How to tell it, what it is for', cell: ({ note }: Line) => note },
  ];
  return html(
    'section',
    { class: 'page' },
    heading(`${sheet.compiled.name}: parts`),
    table('parts', columns, [{ title: null, rows }]),
    paragraph('Without spares. Part types are common practice, no source: any of the same kind will do.'),
  );
}

function inputParts({ compiled }: SheetBoard): Line[] {
  const { inputs } = compiled.table;
  if (inputs.length === 0) return [];
  const note = inputs.map(({ name }) => name).join('; ');
  return [{ count: inputs.length, what: 'Button, detector or switch with two wires', note }];
}
