/** From the name of a file to compiled boards with their images. */
import { readFileSync } from 'node:fs';
import { type Finding, hasErrors } from '../../shared/findings/finding.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import { type BudgetPart, encodeTable } from '../../shared/table/encode.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import type { Report } from './output.ts';

export interface LoadedBoard extends CompiledBoard {
  readonly image: Uint8Array | null;
  readonly budget: readonly BudgetPart[];
  /** Bytes left in a slot of the chip; below zero when too large. */
  readonly free: number;
}

export interface Loaded {
  readonly layout: Layout;
  readonly boards: readonly LoadedBoard[];
  readonly findings: readonly Finding[];
}

export type LoadResult =
  | { readonly ok: true; readonly value: Loaded }
  | { readonly ok: false; readonly report: Report };

/** Not a layout at all, rather than a layout with mistakes. */
const UNREADABLE = [
  'json-syntax',
  'json-truncated',
  'json-duplicate-key',
  'json-too-deep',
  'not-a-layout',
  'wrong-format',
  'wrong-version',
];

/** A layout with mistakes loads with its findings; a file that is none does not. */
export function loadLayout(file: string): LoadResult {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return { ok: false, report: { exit: 2, problem: describeProblem('layoutUnreadable', { detail, cause: detail }) } };
  }
  const { layout, findings } = parseLayout(text);
  if (layout === null) {
    const unreadable = findings.some((finding) => UNREADABLE.includes(finding.code));
    return { ok: false, report: { exit: unreadable ? 2 : 1, findings } };
  }
  const compiled = compileLayout(layout);
  const all = [...findings, ...compiled.findings];
  const boards = compiled.boards.map((board): LoadedBoard => {
    const encoded = encodeTable(board.table);
    all.push(...encoded.findings);
    return { ...board, image: encoded.bytes, budget: encoded.budget, free: encoded.free };
  });
  return { ok: true, value: { layout, boards, findings: all } };
}

/** The layout when nothing in it is wrong; warnings are let pass, for the caller to show. */
export function loadGood(file: string): LoadResult {
  const loaded = loadLayout(file);
  if (!loaded.ok || !hasErrors(loaded.value.findings)) return loaded;
  return { ok: false, report: { exit: 1, findings: loaded.value.findings } };
}

export type BoardResult =
  | { readonly ok: true; readonly value: LoadedBoard }
  | { readonly ok: false; readonly report: Report };

/** The board of that id or name, or the only one. */
export function chooseBoard({ boards }: Loaded, wanted: string | undefined): BoardResult {
  const found = wanted === undefined ? boards.length === 1 && boards[0] : boards.find((board) => board.id === wanted);
  if (found) return { ok: true, value: found };
  const ids = boards.map((board) => board.id).join(', ');
  const problem = describeProblem('noSuchBoard', { board: wanted ?? '' });
  const what =
    wanted === undefined
      ? `The layout has ${boards.length} boards: say which with --board (${ids}).`
      : `The layout has no board "${wanted}"; it has ${ids}.`;
  return { ok: false, report: { exit: 2, problem: { ...problem, what } } };
}

/** A site of a board by its id, its name or its number. */
export function findSite(board: CompiledBoard, wanted: string): number | null {
  const index = board.sites.findIndex(
    (site, number) => site.id === wanted || site.name === wanted || String(number) === wanted,
  );
  return index < 0 ? null : index;
}
