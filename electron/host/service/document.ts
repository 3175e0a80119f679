/** The open layout, and what each of its boards should run. */
import { loadsOf } from '../../../shared/electrics/loads.ts';
import type { Load } from '../../../shared/electrics/model.ts';
import { capital } from '../../../shared/findings/capital.ts';
import type { Finding } from '../../../shared/findings/finding.ts';
import { parseLayout } from '../../../shared/layout/parse.ts';
import { type CompiledBoard, compileLayout } from '../../../shared/signals/compile.ts';
import { encodeTable, imageBudget } from '../../../shared/table/encode.ts';
import { CAPACITY, type Chip } from '../../../shared/table/format.ts';
import { imageCrc, imageShape } from '../../../shared/table/shape.ts';
import type { DocumentState, Outcome, Problem } from '../../../shared/workbench/contract.ts';
import { describeProblem, problem } from '../../../shared/workbench/problems.ts';

export interface BoardPlan {
  readonly id: string;
  readonly name: string;
  readonly chip: Chip;
  /** Null while the layout has mistakes that touch this board. */
  readonly compiled: CompiledBoard | null;
  /** What hangs on its outputs; empty while there is no `compiled`. */
  readonly loads: readonly Load[];
  readonly image: { readonly bytes: Uint8Array; readonly crc: number; readonly shape: number } | null;
  /** Why there is no image. */
  readonly problem: Problem | null;
}

export interface OpenDocument {
  /** Without where it came from, which others know. */
  readonly state: Pick<DocumentState, 'name' | 'text' | 'version'>;
  /** Name of the layout inside the file. */
  readonly title: string;
  readonly boards: readonly BoardPlan[];
}

/** A text that is no layout is refused; a layout with mistakes opens, so that they can be mended. */
export function openDocument(name: string, text: string, version: number): Outcome<OpenDocument> {
  const { layout, findings } = parseLayout(text);
  if (!layout) {
    return problem('layoutUnreadable', causesOf(findings));
  }
  const compiled = compileLayout(layout);
  const first = firstError(compiled.findings);
  const boards = layout.boards.map(({ id, name: boardName, chip }): BoardPlan => {
    const board = compiled.boards.find((candidate) => candidate.id === id) ?? null;
    const loads = board ? loadsOf(layout, board) : [];
    const plan = { id, name: boardName, chip, compiled: board, loads };
    if (!board) return { ...plan, image: null, problem: describeProblem('layoutWrong', causeOf(first)) };
    return { ...plan, ...imageOf(board, boardName) };
  });
  return { ok: true, value: { state: { name, text, version }, title: layout.name, boards } };
}

function imageOf({ table }: CompiledBoard, board: string): Pick<BoardPlan, 'image' | 'problem'> {
  const { bytes, findings, free } = encodeTable(table);
  if (bytes) return { image: { bytes, crc: imageCrc(bytes), shape: imageShape(bytes) ?? 0 }, problem: null };
  if (free < 0) {
    const needed = imageBudget(table).reduce((sum, part) => sum + part.bytes, 0);
    return {
      image: null,
      problem: describeProblem('tooLarge', { board, bytes: needed, room: CAPACITY[table.chip].image }),
    };
  }
  return { image: null, problem: describeProblem('layoutWrong', causeOf(firstError(findings))) };
}

function firstError(findings: readonly Finding[]): Finding | undefined {
  return findings.find(({ severity }) => severity === 'error');
}

/** So many mistakes are told at once. */
const MOST_TOLD = 3;

function causesOf(findings: readonly Finding[]): { readonly cause?: string; readonly detail?: string } {
  const wrong = findings.filter(({ severity }) => severity === 'error');
  const told = wrong.slice(0, MOST_TOLD).map(({ what, path }) => (path === '' ? what : `${path}: ${what}`));
  const more = wrong.length - told.length;
  const cause = [...told, ...(more > 0 ? [`There are ${more} more.`] : [])].join(' ');
  return { ...causeOf(wrong[0]), ...(wrong.length > 1 && { cause: capital(cause) }) };
}

/** A finding as the cause of a problem; the whole file has no path. */
function causeOf(finding: Finding | undefined): { readonly cause?: string; readonly detail?: string } {
  if (!finding) return {};
  return { cause: finding.what, detail: [finding.code, finding.path].filter(Boolean).join(' at ') };
}
