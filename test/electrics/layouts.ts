/** Layouts for tests of electrics: an example, or some sites on one board `b`. */
import { readFileSync } from 'node:fs';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';

export function example(name: 'penmarrow' | 'elm-and-third'): { layout: Layout; boards: readonly CompiledBoard[] } {
  const file = new URL(`../../shared/layout/examples/${name}.json`, import.meta.url);
  return parsed(JSON.parse(readFileSync(file, 'utf8')));
}

/** `rest` goes over the layout, `board` over its board. */
export function compiled(
  sites: readonly object[],
  rest: object = {},
  board: object = {},
): { layout: Layout; board: CompiledBoard } {
  const { layout, boards } = parsed({
    format: 'amberwick-layout',
    version: 1,
    name: 'Test',
    scale: 'OO',
    practice: 'uk-today',
    boards: [{ id: 'b', name: 'Board', chip: 'atmega328p', ...board }],
    sites,
    ...rest,
  });
  const [first] = boards;
  if (first === undefined) throw new Error('no board');
  return { layout, board: first };
}

function parsed(json: unknown): { layout: Layout; boards: readonly CompiledBoard[] } {
  const { layout, findings } = parseLayout(JSON.stringify(json));
  if (layout === null) throw new Error(JSON.stringify(findings));
  const made = compileLayout(layout);
  if (made.boards.length === 0) throw new Error(JSON.stringify(made.findings));
  return { layout, boards: made.boards };
}
