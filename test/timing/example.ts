/** The example layout, compiled, as tests and long runs use it. */
import { readFileSync } from 'node:fs';
import { parseLayout } from '../../shared/layout/parse.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import type { BoardTable } from '../../shared/table/model.ts';

export function penmarrowBoard(): CompiledBoard {
  const file = new URL('../../shared/layout/examples/penmarrow.json', import.meta.url);
  const { layout, findings } = parseLayout(readFileSync(file, 'utf8'));
  if (!layout) throw new Error(JSON.stringify(findings));
  const [board] = compileLayout(layout).boards;
  if (!board) throw new Error('the example has no board');
  return board;
}

/** Without the power-on sweep, so that the first edge is the start of the table. */
export function withoutSweep(table: BoardTable): BoardTable {
  return { ...table, sweep: 0 };
}
