/** Holds measured edges against a schedule on paper. */
import { type IdealEdge, idealEdges, type PaperSite } from './ideal.ts';
import { CYCLES_PER_MS, type Edge } from './rig.ts';

/** Lamps of one interval may change this far apart, cycles (50 microseconds). */
const TOGETHER = 800;

export interface Measurement {
  readonly edges: number;
  /** Greatest distance of an edge from its ideal time, microseconds. */
  readonly worstMicroseconds: number;
  /** Mean distance in the last tenth less that in the first tenth, microseconds. */
  readonly driftMicroseconds: number;
  /** Longest time between the first and the last lamp of one change, microseconds. */
  readonly apartMicroseconds: number;
  /** First thing that is not as on paper, or null. */
  readonly wrong: string | null;
}

/** `start`: cycle at which the table started, found from the first edge. */
export function measure(edges: readonly Edge[], sites: readonly PaperSite[], start: number): Measurement {
  const last = edges.at(-1)?.cycles ?? start;
  const lastMs = (last - start) / CYCLES_PER_MS;
  // A millisecond more: the last edge may have come a little before its time.
  const ideal = idealEdges(sites, lastMs + 1);
  const sorted = inIdealOrder(edges);
  const apart: number[] = [];
  const errors: number[] = [];
  let wrong: string | null = null;
  let changeAt = 0;
  let changeMs = -1;
  for (const [index, edge] of sorted.entries()) {
    const due = ideal[index];
    if (!due || due.lamp !== edge.lamp || due.lit !== edge.lit) {
      wrong ??= `edge ${index}: ${describe(due)} on paper, ${describe(asIdeal(edge, start))} measured`;
      break;
    }
    errors.push((edge.cycles - start) / CYCLES_PER_MS - due.ms);
    if (due.ms !== changeMs) {
      changeMs = due.ms;
      changeAt = edge.cycles;
    }
    apart.push(Math.abs(edge.cycles - changeAt));
  }
  if (wrong === null && ideal.filter(({ ms }) => ms < lastMs - 1).length > sorted.length) wrong = 'edges are missing';
  const tenth = Math.max(1, Math.floor(errors.length / 10));
  return {
    edges: sorted.length,
    worstMicroseconds: 1000 * greatest(errors.map(Math.abs)),
    driftMicroseconds: 1000 * (mean(errors.slice(-tenth)) - mean(errors.slice(0, tenth))),
    apartMicroseconds: greatest(apart) / 16,
    wrong,
  };
}

/** Edges within 50 microseconds are one change and are put in the order of their lamps. */
function inIdealOrder(edges: readonly Edge[]): Edge[] {
  const sorted: Edge[] = [];
  let change: Edge[] = [];
  for (const edge of edges) {
    const [first] = change;
    if (first && edge.cycles - first.cycles > TOGETHER) {
      sorted.push(...change.sort((a, b) => a.lamp - b.lamp));
      change = [];
    }
    change.push(edge);
  }
  sorted.push(...change.sort((a, b) => a.lamp - b.lamp));
  return sorted;
}

/** Not Math.max with all as arguments: a day has more edges than a call may have. */
function greatest(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, value), 0);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function asIdeal({ cycles, lamp, lit }: Edge, start: number): IdealEdge {
  return { ms: (cycles - start) / CYCLES_PER_MS, lamp, lit };
}

function describe(edge: IdealEdge | undefined): string {
  return edge ? `lamp ${edge.lamp} ${edge.lit ? 'on' : 'off'} at ${edge.ms} ms` : 'nothing';
}
