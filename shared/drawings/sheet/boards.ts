/** Everything that a sheet says about each board, gathered from the layout. */
import { budgetOf } from '../../electrics/budget.ts';
import { checkBoard } from '../../electrics/check/check.ts';
import { loadsOf } from '../../electrics/loads.ts';
import { mergeRecords } from '../../lampcheck/record.ts';
import type { CheckRecord } from '../../layout/check-record.ts';
import type { Layout } from '../../layout/schema.ts';
import type { CompiledBoard } from '../../signals/compile.ts';
import { encodeTable } from '../../table/encode.ts';
import { imageShape } from '../../table/shape.ts';
import type { SheetBoard, SheetOptions } from './model.ts';

/** `compiled` comes from the same layout. An unknown board gives none. */
export function sheetBoards(
  layout: Layout,
  compiled: readonly CompiledBoard[],
  { board: wanted, checks = [] }: Pick<SheetOptions, 'board' | 'checks'>,
): SheetBoard[] {
  return compiled.flatMap((it): SheetBoard[] => {
    const board = layout.boards.find(({ id }) => id === it.id);
    if (board === undefined || (wanted !== undefined && wanted !== it.id)) return [];
    const loads = loadsOf(layout, it).sort((a, b) => a.output - b.output);
    const known = [...(layout.checks ?? []), ...checks].filter((record) => record.board === it.id);
    const check = known.reduce<CheckRecord | null>(mergeRecords, null);
    const budget = budgetOf(layout, it);
    const findings = checkBoard(layout, it, budget);
    return [{ layout, board, compiled: it, loads, check, budget, findings, hash: hashOf(it) }];
  });
}

function hashOf({ table }: CompiledBoard): string | null {
  const { bytes } = encodeTable(table);
  const shape = bytes === null ? null : imageShape(bytes);
  return shape === null ? null : shape.toString(16).toUpperCase().padStart(4, '0');
}
