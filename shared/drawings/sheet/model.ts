/** What a wiring sheet is made from, and what of it is printed. */
import type { Budget } from '../../electrics/budget.ts';
import type { Load } from '../../electrics/model.ts';
import type { Finding } from '../../findings/finding.ts';
import type { CheckRecord } from '../../layout/check-record.ts';
import type { Board } from '../../layout/outputs.ts';
import type { Layout } from '../../layout/schema.ts';
import type { CompiledBoard } from '../../signals/compile.ts';

export type Paper = 'a4' | 'letter';

/** Parts of the sheet; the title and the cautions are always there. */
export const SHEET_PARTS = ['table', 'drawing', 'cut', 'parts', 'labels'] as const;
export type SheetPart = (typeof SHEET_PARTS)[number];

export interface SheetOptions {
  /** As it is printed: `25 November 2026`. */
  readonly date: string;
  /** Name of the layout's file. */
  readonly file: string;
  /** Default: every board that compiles. */
  readonly board?: string;
  /** Default: a4. */
  readonly paper?: Paper;
  /** Default: all. */
  readonly parts?: readonly SheetPart[];
  /** Beside those of the document; of each lamp the later answer counts. */
  readonly checks?: readonly CheckRecord[];
}

/** One board with all that hangs on it. */
export interface SheetBoard {
  readonly layout: Layout;
  readonly board: Board;
  readonly compiled: CompiledBoard;
  /** In the order of the outputs. */
  readonly loads: readonly Load[];
  readonly check: CheckRecord | null;
  /** What its supplies have to give. */
  readonly budget: Budget;
  /** What is wrong with its electrics. */
  readonly findings: readonly Finding[];
  /** Table hash, four hexadecimal digits; null where the table does not fit into the board. */
  readonly hash: string | null;
}
