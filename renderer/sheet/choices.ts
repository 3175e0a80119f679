/** What is chosen to be printed, and what the sheet is made from. */
import type { SheetOptions, SheetPart } from '../../shared/drawings/sheet/model.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import type { Model } from '../model/model.ts';

/** In the order of the pages. */
export const PART_NAMES: Readonly<Record<SheetPart, string>> = {
  table: 'Table of lamps',
  drawing: 'Pins and chain, drawn',
  cut: 'Posts to cut',
  parts: 'Parts list',
  labels: 'Wire labels',
};

/** Records that this computer keeps; those of the file are in the layout. */
export function keptChecks({ boards }: Model): CheckRecord[] {
  return boards.value.flatMap(({ state }) => (state.value.check === null ? [] : [state.value.check]));
}

/** `25 November 2026`, by the clock of this computer. */
export function dateText(date: Date): string {
  return date.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });
}

/** Name of a file for one board or for all of them: `penmarrow-wiring`. */
export function fileName(file: string, board: SheetOptions['board']): string {
  const stem = file.replace(/\.[^.]*$/, '') || 'layout';
  return `${stem}${board === undefined ? '' : `-${board}`}-wiring`;
}
