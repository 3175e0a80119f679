/** HTML as strings that are XML as well: elements, escaping, tables. No style attributes: a strict content policy forbids them. */
import { escaped } from '../svg.ts';

type Attributes = Readonly<Record<string, string | number | null>>;

/** One element with what is in it; `children` are HTML already. Attributes that are null are left out. */
export function html(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes).flatMap(([key, value]) =>
    value === null ? [] : [` ${key}="${escaped(String(value))}"`],
  );
  // Never `<td/>`: a reader of HTML would take that for a tag that opens.
  return `<${name}${written.join('')}>${children.join('')}</${name}>`;
}

/** Plain text as HTML. */
export const text = escaped;

/** A paragraph of plain text. */
export const paragraph = (content: string, name?: string): string =>
  html('p', { class: name ?? null }, escaped(content));

export const heading = (content: string, level: 1 | 2 | 3 = 2): string => html(`h${level}`, {}, escaped(content));

export const list = (items: readonly string[], name?: string): string =>
  html('ul', { class: name ?? null }, ...items.map((item) => html('li', {}, escaped(item))));

export interface Column<T> {
  readonly head: string;
  /** Lines of plain text; the first may stand out. */
  readonly cell: (row: T) => string | readonly string[];
  /** The first line of each cell is bold. */
  readonly strong?: boolean;
}

export interface Part<T> {
  /** A line over these rows; null for none. */
  readonly title: string | null;
  readonly rows: readonly T[];
}

/** A table whose head is repeated on each page and whose rows are never cut. */
export function table<T>(name: string, columns: readonly Column<T>[], parts: readonly Part<T>[]): string {
  const head = html('tr', {}, ...columns.map((it) => html('th', { scope: 'col' }, escaped(it.head))));
  const bodies = parts.map(({ title, rows }) => {
    const over = title === null ? '' : titleRow(title, columns.length);
    return html('tbody', {}, over, ...rows.map((row) => html('tr', {}, ...columns.map((it) => cell(it, row)))));
  });
  return html('table', { class: name }, html('thead', {}, head), ...bodies);
}

function titleRow(title: string, span: number): string {
  return html('tr', { class: 'over' }, html('th', { colspan: span, scope: 'rowgroup' }, escaped(title)));
}

function cell<T>({ cell: of, strong }: Column<T>, row: T): string {
  const content = of(row);
  const lines = typeof content === 'string' ? [content] : content;
  const written = lines.map((line, index) =>
    strong === true && index === 0 ? html('strong', {}, escaped(line)) : escaped(line),
  );
  return html('td', {}, written.join('<br/>'));
}
