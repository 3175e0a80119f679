/** The number that a lamp blinks: its place among those of its site, so that it stays short. */
import type { Load } from '../../shared/electrics/model.ts';

/** By number of the lamp on the board. */
export function numbersIn(steps: readonly Load[]): ReadonlyMap<number, number> {
  const counts = new Map<string | null, number>();
  return new Map(
    steps.map(({ lamp, site }) => {
      const number = (counts.get(site) ?? 0) + 1;
      counts.set(site, number);
      return [lamp, number];
    }),
  );
}
