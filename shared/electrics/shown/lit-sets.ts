/** Which lamps of a site are lit at the same moment, in every way that can be. */
import { reachedRows } from './reach.ts';
import type { BoardTable, LampState, Program } from './tables.ts';

/** What holds for the whole board. off: only sync outputs are lit. */
export type Master = 'run' | 'night' | 'safe' | 'off';

export interface SiteSets {
  /** By master state: sets of lamps of the site, by their number in its program. The dark one is left out. */
  readonly sets: Readonly<Record<Master, readonly (readonly number[])[]>>;
  /** False: there may be sets that never come to be; none is missing. */
  readonly isExact: boolean;
}

/**
 * A flashing lamp and one that flashes alternately are never lit together. The fault aspect can come at any moment,
 * also at night; the site's own aspects for night and safe as the table has them.
 */
export function siteSets(table: BoardTable, site: number): SiteSets {
  const binding = table.sites[site];
  const program = binding === undefined ? undefined : table.programs[binding.program];
  if (binding === undefined || program === undefined) {
    return { sets: { run: [], night: [], safe: [], off: [] }, isExact: true };
  }
  const reached = reachedRows(table, site);
  const shown = reached.rows.flatMap((at) => statesOf(program, at));
  // A site comes back from its fault by itself, by way of its safe aspect (PROTOCOL.md, chapter 6).
  const broken = [program.fault, program.safe];
  const run = setsOf([...shown, ...broken]);
  // A fault goes before the night; a site that finds no interval at its start has nothing else to show.
  const atNight = { run: shown, fault: [], safe: [program.safe], dark: [] }[binding.atNight];
  const night = setsOf(reached.rows.length > 0 ? [...atNight, ...broken] : broken);
  return { sets: { run, night, safe: setsOf([program.safe]), off: [] }, isExact: reached.isExact };
}

function statesOf(program: Program, at: number): (readonly LampState[])[] {
  const row = program.rows[at];
  return row !== undefined && 'states' in row ? [row.states] : [];
}

/** Each once: the lit part and the dark part of the flash. */
function setsOf(shown: readonly (readonly LampState[])[]): number[][] {
  const sets = new Map<string, number[]>();
  for (const states of shown) {
    for (const also of ['flash', 'alternate'] as const) {
      const lit = states.flatMap((state, lamp) => (state === 'lit' || state === also ? [lamp] : []));
      if (lit.length > 0) sets.set(lit.join(), lit);
    }
  }
  return [...sets.values()];
}
