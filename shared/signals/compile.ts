/** From a whole layout to the phase tables of its boards. */
import { type Finding, hasErrors } from '../findings/finding.ts';
import { error, warning } from '../findings/make.ts';
import { checkPlaces } from '../layout/places.ts';
import type { Layout } from '../layout/schema.ts';
import { practiceOf } from '../practice/custom/custom.ts';
import type { TimeRule } from '../practice/fact.ts';
import type { BoardTable } from '../table/model.ts';
import { compileBoard } from './board.ts';
import type { OwnLimits } from './dials.ts';
import { duplicateIds } from './names.ts';

export interface CompiledLamp {
  readonly index: number;
  readonly label: string;
  readonly colour: string;
  readonly path: string;
}

export interface CompiledDial {
  readonly id: string;
  readonly name: string;
  /** Why it cannot be turned further down, where that is not plain from its name. */
  readonly leastBecause?: string;
  /** Of the practice; absent where no rule is behind it. */
  readonly rule?: TimeRule;
  /** The owner has set other limits: what they were without that, ms, and why. */
  readonly owner?: OwnLimits;
}

/** Names for what the image of a board only numbers. */
export interface CompiledSite {
  readonly id: string;
  readonly name: string;
  readonly dials: readonly CompiledDial[];
  /** `index` is the number of the lamp on the board; `label` the head, phase or beacon; `path` its place in the document. */
  readonly lamps: readonly CompiledLamp[];
  readonly rows: readonly { readonly label: string }[];
}

export interface CompiledBoard {
  readonly id: string;
  readonly name: string;
  readonly table: BoardTable;
  /** In the order of the table's sites. */
  readonly sites: readonly CompiledSite[];
  /** Lamps of no site: indicators of inputs and sync outputs of groups. `colour` is empty: they have none of their own. */
  readonly others: readonly CompiledLamp[];
}

export interface Compiled {
  /** Only boards without errors, so that nothing half right is ever sent. */
  readonly boards: readonly CompiledBoard[];
  readonly findings: Finding[];
}

/** Never throws. Whether the table fits into the board's memory is for encodeTable to say. */
export function compileLayout(layout: Layout): Compiled {
  const { practice, findings: told } = practiceOf(layout);
  const findings = [...checkNames(layout), ...checkPlaces(layout.baseboard, layout.sites), ...told];
  if (practice === null || hasErrors(findings)) return { boards: [], findings };
  const boards: CompiledBoard[] = [];
  layout.boards.forEach((board, index) => {
    const compiled = compileBoard(layout, board, index, practice);
    findings.push(...compiled.findings);
    if (compiled.board !== null) boards.push(compiled.board);
  });
  return { boards, findings };
}

/** Everything that belongs to no single board. */
function checkNames(layout: Layout): Finding[] {
  const findings = [
    ...duplicateIds(layout.boards, 'boards', 'board'),
    ...duplicateIds(layout.sites, 'sites', 'site'),
    ...duplicateIds(layout.inputs ?? [], 'inputs', 'input'),
    ...duplicateIds(layout.groups ?? [], 'groups', 'group'),
    ...duplicateIds(layout.roads ?? [], 'roads', 'road'),
  ];
  const lists = { sites: layout.sites, inputs: layout.inputs ?? [], groups: layout.groups ?? [] };
  for (const [list, items] of Object.entries(lists)) {
    items.forEach((item, index) => {
      if (layout.boards.some((board) => board.id === item.board)) return;
      findings.push(unknownBoard(layout, item, `${list}[${index}].board`));
    });
  }
  layout.boards.forEach((board, index) => {
    if (!layout.sites.some((site) => site.board === board.id)) findings.push(idleBoard(board.name, `boards[${index}]`));
  });
  return findings;
}

function unknownBoard(layout: Layout, item: { readonly name: string; readonly board: string }, path: string): Finding {
  return error('unknown-board', path, {
    what: `${item.name} is on a board "${item.board}", which the layout does not have.`,
    why: 'Nothing would run it.',
    cure: `Use one of the boards: ${layout.boards.map((board) => board.id).join(', ')}.`,
  });
}

function idleBoard(name: string, path: string): Finding {
  return warning('idle-board', path, {
    what: `${name} has no sites.`,
    why: 'It would stay dark.',
    cure: 'Put a site on it, or take it out of the layout.',
  });
}
