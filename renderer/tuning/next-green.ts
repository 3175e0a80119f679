/** Greens of a site that can be waited for. */
import { isInterval } from '../../shared/table/rows.ts';
import type { OpenSite } from '../model/document.ts';

export interface Green {
  /** "Fore Street green". */
  readonly label: string;
  readonly rows: readonly number[];
}

/** Intervals by label in which a green is steadily lit and no amber; of sites without any green, all intervals. */
export function greensOf(site: OpenSite): Green[] {
  const greens = intervalsOf(site, (row) => shows(site, row, 'green', 'lit') && !shows(site, row, 'amber'));
  return greens.length > 0 ? greens : intervalsOf(site, () => true);
}

/** What Shift+H waits for: any green but the one that runs. */
export function otherRows(site: OpenSite, running: number | null): number[] {
  const greens = greensOf(site);
  const others = greens.filter(({ rows }) => running === null || !rows.includes(running));
  return (others.length > 0 ? others : greens).flatMap(({ rows }) => rows);
}

function intervalsOf(site: OpenSite, wanted: (row: number) => boolean): Green[] {
  const found = new Map<string, number[]>();
  site.program.rows.forEach((row, index) => {
    const label = site.names.rows[index]?.label;
    if (!isInterval(row) || label === undefined || !wanted(index)) return;
    found.set(label, [...(found.get(label) ?? []), index]);
  });
  return found.size > 1 ? [...found].map(([label, rows]) => ({ label, rows })) : [];
}

function shows(site: OpenSite, row: number, colour: string, as?: string): boolean {
  const interval = site.program.rows[row];
  if (!interval || !isInterval(interval)) return false;
  return interval.states.some(
    (state, lamp) => site.names.lamps[lamp]?.colour === colour && (as === undefined ? state !== 'dark' : state === as),
  );
}
