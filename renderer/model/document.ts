/** The open layout: its text read and compiled once for each version. */
import { checkElectrics } from '../../shared/electrics/check/check.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type CompiledBoard, type CompiledSite, compileLayout } from '../../shared/signals/compile.ts';
import type { Program, SiteBinding } from '../../shared/table/model.ts';
import type { DocumentState } from '../../shared/workbench/contract.ts';

/** One site of the layout with everything the panel needs to speak of it. */
export interface OpenSite {
  /** Id in the layout. */
  readonly id: string;
  readonly board: string;
  /** Number in the board's table. */
  readonly number: number;
  /** Index among the layout's sites, as in the paths of findings. */
  readonly index: number;
  readonly names: CompiledSite;
  readonly program: Program;
  readonly binding: SiteBinding;
}

export interface OpenLayout {
  /** File name. */
  readonly file: string;
  readonly version: number;
  /** Null when the text is no layout; the findings say why. */
  readonly layout: Layout | null;
  readonly boards: readonly CompiledBoard[];
  /** Sites of all boards, in the order of the layout. */
  readonly sites: readonly OpenSite[];
  readonly findings: readonly Finding[];
}

export const NOTHING_OPEN: OpenLayout = { file: '', version: -1, layout: null, boards: [], sites: [], findings: [] };

export function readDocument(document: Pick<DocumentState, 'name' | 'text' | 'version'>): OpenLayout {
  const parsed = parseLayout(document.text);
  const compiled = parsed.layout ? compileLayout(parsed.layout) : { boards: [], findings: [] };
  const electrics = parsed.layout ? checkElectrics(parsed.layout, compiled.boards) : [];
  return {
    file: document.name,
    version: document.version,
    layout: parsed.layout,
    boards: compiled.boards,
    sites: parsed.layout ? openSites(parsed.layout, compiled.boards) : [],
    findings: [...parsed.findings, ...compiled.findings, ...electrics],
  };
}

function openSites(layout: Layout, boards: readonly CompiledBoard[]): OpenSite[] {
  return layout.sites.flatMap((site, index) => {
    const board = boards.find((it) => it.id === site.board);
    const number = board?.sites.findIndex((it) => it.id === site.id) ?? -1;
    const names = board?.sites[number];
    const binding = board?.table.sites[number];
    const program = binding && board?.table.programs[binding.program];
    if (!board || !names || !binding || !program) return [];
    return [{ id: site.id, board: board.id, number, index, names, program, binding }];
  });
}
