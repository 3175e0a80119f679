/**
 * The most that can be lit at one moment, by any measure of the lamps.
 *
 * A site stays in its interval while the host holds it, so any interval that a site can reach can be met by any of
 * another site: hold the first there and wait for the second. Flashing starts anew with a site, so its parts meet
 * in every way, too. A latched demand stays while its site is held, so that every indicator can be lit besides; sync
 * pulses begin together when the board starts. The greatest sum is therefore the sum of each site's greatest, in one
 * master state for the whole board. Only sites that share an input can hinder each other, and then it is a bound.
 */
import { type Master, type SiteSets, siteSets } from './lit-sets.ts';
import type { BoardTable } from './tables.ts';

const MASTERS: readonly Master[] = ['run', 'night', 'safe', 'off'];

export interface Worst {
  readonly value: number;
  /** Lamps of the board that are lit then, ascending. */
  readonly lamps: readonly number[];
  /** False: the value may be more than what can really come together; never less. */
  readonly isExact: boolean;
}

/** Finds the worst moment of one board for one measure after the other. */
export class Moments {
  readonly #sites: readonly (SiteSets & { readonly first: number; readonly lamps: number })[];
  readonly #indicators: readonly number[];
  readonly #syncs: readonly number[];
  readonly #lamps: number;

  constructor(table: BoardTable) {
    let first = 0;
    this.#sites = table.sites.map((binding, site) => {
      const lamps = table.programs[binding.program]?.lamps.length ?? 0;
      first += lamps;
      return { first: first - lamps, lamps, ...siteSets(table, site) };
    });
    // The board takes no lamp of a site for an indicator or a sync output.
    const spare = (lamp: number | null): number[] => (lamp === null || lamp < first ? [] : [lamp]);
    this.#indicators = [...new Set(table.inputs.flatMap(({ indicator }) => spare(indicator)))];
    this.#syncs = [...new Set(table.groups.flatMap(({ syncOut }) => spare(syncOut)))];
    this.#lamps = table.lamps.length;
  }

  /** `measure` of one lit lamp, not below zero. Any single lamp counts as well: lamp check and sweep light each by itself. */
  worst(measure: (lamp: number) => number): Worst {
    const measures = Array.from({ length: this.#lamps }, (_, lamp) => measure(lamp));
    // Sites without any of these lamps have no say.
    const isExact = this.#sites.every(
      (site) => site.isExact || measures.slice(site.first, site.first + site.lamps).every((it) => it === 0),
    );
    let worst: Worst = { value: 0, lamps: [], isExact };
    const offer = (lamps: readonly number[]): void => {
      const value = lamps.reduce((sum, lamp) => sum + (measures[lamp] ?? 0), 0);
      if (value > worst.value) worst = { value, lamps: [...lamps].sort((a, b) => a - b), isExact };
    };
    const strongest = Math.max(0, ...measures);
    if (strongest > 0) offer([measures.indexOf(strongest)]);
    for (const master of MASTERS) {
      const lamps = new Set(this.#syncs);
      if (master === 'run' || master === 'night') for (const lamp of this.#indicators) lamps.add(lamp);
      for (const { first, sets } of this.#sites) {
        let most = 0;
        let best: readonly number[] = [];
        for (const set of sets[master]) {
          const value = set.reduce((sum, lamp) => sum + (measures[first + lamp] ?? 0), 0);
          if (value > most) [most, best] = [value, set];
        }
        for (const lamp of best) lamps.add(first + lamp);
      }
      offer([...lamps]);
    }
    return worst;
  }
}
