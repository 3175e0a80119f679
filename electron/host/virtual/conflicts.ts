/** Watches the lamps of a running board for conflicting ones lit together. */
import type { BoardTable } from '../../../shared/table/model.ts';
import { CPU_HZ } from './chips.ts';

/** Outputs of one change may differ by this, cycles (50 microseconds, firmware/PROTOCOL.md chapter 4, step 8). */
const ALLOWED = (CPU_HZ / 1e6) * 50;

export class Conflicts {
  /** Overlaps longer than outputs may differ. */
  seen = 0;
  private readonly pairs: { readonly lamps: readonly [number, number]; since: number | null }[];
  private readonly lit = new Set<number>();

  constructor(table: BoardTable) {
    let first = 0;
    this.pairs = table.sites.flatMap((site) => {
      const program = table.programs[site.program];
      const base = first;
      first += program?.lamps.length ?? 0;
      return (program?.conflicts ?? []).map(([a, b]) => ({ lamps: [base + a, base + b] as const, since: null }));
    });
  }

  lamp(lamp: number, lit: boolean, cycles: number): void {
    if (lit) this.lit.add(lamp);
    else this.lit.delete(lamp);
    for (const pair of this.pairs) {
      const both = pair.lamps.every((one) => this.lit.has(one));
      if (both && pair.since === null) pair.since = cycles;
      else if (!both && pair.since !== null) {
        if (cycles - pair.since > ALLOWED) this.seen += 1;
        pair.since = null;
      }
    }
  }

  /** An overlap that still goes on counts too. */
  finish(cycles: number): void {
    for (const pair of this.pairs) {
      if (pair.since !== null && cycles - pair.since > ALLOWED) this.seen += 1;
      pair.since = null;
    }
  }
}
