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

/** What a board was last checked with: as this computer keeps it, or as the file has it, whichever is later. */
export function latestChecks(model: Model): CheckRecord[] {
  const inFile = model.open.value.layout?.checks ?? [];
  return model.boards.value.flatMap(({ id, state }) => {
    const known = [state.value.check, inFile.find(({ board }) => board === id) ?? null];
    const found = known.filter((it): it is CheckRecord => it !== null).sort((a, b) => lastOf(b) - lastOf(a));
    return found.slice(0, 1);
  });
}

/** Time of the newest answer, ms. */
function lastOf({ began, lamps }: CheckRecord): number {
  return Math.max(Date.parse(began), ...lamps.map(({ at }) => Date.parse(at)));
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
