/** The running example as lines of text: each site, its interval, seconds left, lamps as letters. */
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import type { Interval, Row } from '../../shared/table/model.ts';

export interface SiteNow {
  readonly row: number;
  /** Board time at which the interval began, ms. */
  readonly began: number;
}

/** `now`: board time, ms. A capital letter is a lit lamp, a dot a dark one. */
export function picture(
  board: CompiledBoard,
  sites: readonly (SiteNow | null)[],
  lit: readonly boolean[],
  now: number,
): string[] {
  const width = Math.max(...board.sites.map((site) => site.name.length));
  return board.sites.map((site, index) => {
    const at = sites[index];
    const label = at ? (site.rows[at.row]?.label ?? '') : 'not known yet';
    return [
      site.name.padEnd(width),
      label.padEnd(30),
      secondsLeft(board, index, at ?? null, now).padStart(7),
      lampText(site.lamps, lit),
    ].join('  ');
  });
}

function secondsLeft(board: CompiledBoard, index: number, at: SiteNow | null, now: number): string {
  const binding = board.table.sites[index];
  const row = at && binding ? board.table.programs[binding.program]?.rows[at.row] : undefined;
  const dial = row ? fixedDial(row) : null;
  const ms = dial === null ? undefined : binding?.dials[dial];
  if (!at || ms === undefined) return '';
  return `${Math.max(0, (at.began + ms - now) / 1000).toFixed(1)} s`;
}

/** Only an interval that lasts as long as its dial says has seconds left. */
function fixedDial(row: Row | Interval): number | null {
  return row.op === 'after' ? row.dial : null;
}

/** Lamps of one head stand together: `Fore Street R..`. */
function lampText(lamps: CompiledBoard['sites'][number]['lamps'], lit: readonly boolean[]): string {
  const heads = new Map<string, string>();
  for (const { index, label, colour } of lamps) {
    const letter = lit[index] ? colour.charAt(0).toUpperCase() : '.';
    heads.set(label, (heads.get(label) ?? '') + letter);
  }
  return [...heads].map(([label, letters]) => `${label} ${letters}`).join('  ');
}
