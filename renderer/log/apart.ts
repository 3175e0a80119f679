/** The times that a board runs and keeps differently, with their names. */
import type { BoardState } from '../../shared/workbench/contract.ts';
import { dialName, type NamedDials } from '../../shared/workbench/dial-name.ts';
import type { DialApart } from '../../shared/workbench/story/since.ts';

/** Null while the two cannot be compared. */
export function dialsApart(
  sites: readonly NamedDials[],
  { keptDials, runningDials }: Pick<BoardState, 'keptDials' | 'runningDials'>,
): DialApart[] | null {
  if (keptDials === null || runningDials === null) return null;
  return sites.flatMap((names, site) =>
    (runningDials[site] ?? []).flatMap((running, dial) => {
      const kept = keptDials[site]?.[dial];
      const name = dialName(names, dial);
      if (kept === undefined || kept === running || name === null) return [];
      return [{ site, dial, name, siteName: names.name, kept, running }];
    }),
  );
}
