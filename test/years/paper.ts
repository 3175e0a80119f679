/** The town's first two sites on paper, edge by edge for as long as one likes. */
import { type IdealEdge, idealEdges, type PaperSite } from '../timing/ideal.ts';
import { PENMARROW } from '../timing/penmarrow.ts';

export class Paper {
  private readonly pattern: readonly IdealEdge[];
  private readonly cycle: number;
  private next = 0;
  private base: number;

  /** `shown`: ms after the start from which its times count. */
  constructor(site: PaperSite, shown: number) {
    this.cycle = site.rows.reduce((sum, { ms }) => sum + ms, 0);
    this.base = shown;
    const round = idealEdges([site], 2 * this.cycle).filter(({ ms }) => ms >= this.cycle);
    this.pattern = round.map((edge) => ({ ...edge, ms: edge.ms - this.cycle }));
    // The first interval is shown by the start.
    while (this.pattern[this.next]?.ms === 0) this.next += 1;
  }

  /** Whether this is the edge that is due, `ms` since the start; those of the start are none. */
  isDue(ms: number, lamp: number, lit: boolean): boolean {
    if (ms <= 1) return true;
    const due = this.pattern[this.next];
    const isRight = due?.lamp === lamp && due.lit === lit && this.dueAt === ms;
    this.next += 1;
    if (this.next === this.pattern.length) {
      this.next = 0;
      this.base += this.cycle;
    }
    return isRight;
  }

  /** Ms since the start. */
  get dueAt(): number {
    return this.base + (this.pattern[this.next]?.ms ?? 0);
  }
}

/** Six lamps of a junction of 42 s, two of a pair of beacons of 1.5 s; by lamp. */
export function townOnPaper(): Paper[] {
  const [junction, , beacons] = PENMARROW;
  if (!junction || !beacons) throw new Error('the example has three sites on paper');
  // Rows begin with the start, flashing with the first tick (PROTOCOL.md, chapter 4).
  const [a, b] = [new Paper({ ...junction, firstLamp: 0 }, 0), new Paper({ ...beacons, firstLamp: 6 }, 1)];
  return [a, a, a, a, a, a, b, b];
}
