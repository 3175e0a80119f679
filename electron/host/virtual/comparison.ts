/**
 * Lamp edges of a board against those of the reference interpreter, lamp by
 * lamp. When the table started is not seen from outside, so the schedule is laid
 * where it fits best.
 */
import { type Edge, tracing } from '../../../shared/interpreter/trace.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import { CPU_HZ } from './chips.ts';

const CYCLES_PER_MS = CPU_HZ / 1000;
const CYCLES_PER_US = CPU_HZ / 1_000_000;
/**
 * A board may show the first intervals in the tick of the start or in the next one
 * (firmware/PROTOCOL.md, chapter 4), so an edge may be looked for this much around its moment, ms.
 */
const MARGIN_MS = 2;
/** A table may begin with all lamps dark for as long as a delayed start; longer than this is not waited for, ms. */
const LONGEST_WAIT_MS = 10 * 3_600_000;

/** An edge of the board, `cycles` of 16 MHz after any start. */
export interface BoardEdge {
  readonly cycles: number;
  readonly lamp: number;
  readonly lit: boolean;
}

export interface Compared {
  /** Cycles of 16 MHz from the first edge to the end of the run. */
  readonly cycles: number;
  readonly edges: number;
  /** Edges that the ideal schedule does not have, or that the board does not. */
  readonly wrong: number;
  /** The first of them, in words. */
  readonly firstWrong: string | null;
  /** Greatest distance of an edge from its ideal moment, microseconds. */
  readonly worst: number;
  /** How far the lamp that moved most is from its schedule at its last edge, less at its second, microseconds. */
  readonly drift: number;
}

interface LampRun {
  readonly ideal: Edge[];
  seen: number;
  /** Distances of the second and of the last edge, microseconds; the first may be that of the start. */
  second: number | null;
  last: number;
}

export class Comparison {
  private readonly lamps: readonly LampRun[];
  private readonly reference;
  private readonly onEdge: (edge: BoardEdge) => void;
  /** Cycle of the reference's start, as far as the first edge tells. */
  private origin: number | null = null;
  private firstCycle = 0;
  private endCycle = 0;
  private edges = 0;
  private wrong = 0;
  private firstWrong: string | null = null;
  private least = Number.POSITIVE_INFINITY;
  private greatest = Number.NEGATIVE_INFINITY;

  /** `onEdge` gets each edge with its cycles after the first one. */
  constructor(table: BoardTable, onEdge: (edge: BoardEdge) => void) {
    this.onEdge = onEdge;
    this.lamps = table.lamps.map(() => ({ ideal: [], seen: 0, second: null, last: 0 }));
    this.reference = tracing(table, (edge) => this.lamps[edge.lamp]?.ideal.push(edge));
    this.reference.start();
    for (const [input, { pullUp, activeLow }] of table.inputs.entries()) {
      this.reference.setRaw(input, pullUp !== activeLow);
    }
  }

  /** Edges in order of time; any number at once. */
  take(edges: readonly BoardEdge[]): void {
    for (const edge of edges) {
      if (this.origin === null) this.begin(edge);
      this.edges += 1;
      this.onEdge({ ...edge, cycles: edge.cycles - this.firstCycle });
      this.compare(edge, this.origin ?? 0);
    }
  }

  /** The run ended at this cycle: what the ideal schedule had before it but the board did not. */
  finish(cycles: number): void {
    this.endCycle = cycles;
    const origin = this.origin ?? cycles;
    this.runReference(cycles, origin);
    const lastMs = (cycles - origin) / CYCLES_PER_MS - MARGIN_MS;
    for (const { ideal } of this.lamps) {
      for (const edge of ideal) if (edge.ms < lastMs) this.isWrong(`nothing, wanted ${words(edge)}`);
    }
  }

  result(): Compared {
    const { edges, wrong, firstWrong, least, greatest } = this;
    const moves = this.lamps.flatMap(({ second, last }) => (second === null ? [] : [last - second]));
    const drift = moves.reduce((most, move) => (Math.abs(move) > Math.abs(most) ? move : most), 0);
    const worst = greatest >= least ? (greatest - least) / 2 : 0;
    const cycles = this.origin === null ? 0 : this.endCycle - this.firstCycle;
    return { cycles, edges, wrong, firstWrong, worst, drift };
  }

  private begin(edge: BoardEdge): void {
    const all = () => this.lamps.flatMap(({ ideal }) => ideal);
    while (all().length === 0 && this.reference.ran < LONGEST_WAIT_MS) this.reference.run(1);
    this.firstCycle = edge.cycles;
    this.origin = edge.cycles - (all()[0]?.ms ?? 0) * CYCLES_PER_MS;
  }

  private compare(edge: BoardEdge, origin: number): void {
    this.runReference(edge.cycles, origin);
    const run = this.lamps[edge.lamp];
    const ideal = run?.ideal.shift();
    const cycles = edge.cycles - origin;
    if (!run || !ideal || ideal.lit !== edge.lit) {
      const had = words({ ...edge, ms: cycles / CYCLES_PER_MS });
      this.isWrong(`${had}, wanted ${ideal ? words(ideal) : 'nothing'}`);
      return;
    }
    const distance = (cycles - ideal.ms * CYCLES_PER_MS) / CYCLES_PER_US;
    run.seen += 1;
    if (run.seen === 2) run.second = distance;
    run.last = distance;
    this.least = Math.min(this.least, distance);
    this.greatest = Math.max(this.greatest, distance);
  }

  private runReference(cycles: number, origin: number): void {
    const ms = Math.ceil((cycles - origin) / CYCLES_PER_MS) + MARGIN_MS - this.reference.ran;
    if (ms > 0) this.reference.run(ms);
  }

  private isWrong(what: string): void {
    this.wrong += 1;
    this.firstWrong ??= what;
  }
}

function words({ lamp, lit, ms }: Edge): string {
  return `lamp ${lamp} ${lit ? 'lit' : 'dark'} at ${ms} ms`;
}
