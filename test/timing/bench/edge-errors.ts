/** How far the edges of one site are from its schedule on paper, and how this grows. */
import { idealEdges, type PaperSite } from '../ideal.ts';
import { CYCLES_PER_MS, type Edge } from '../rig.ts';

const MS_PER_DAY = 86_400_000;

export interface SiteErrors {
  readonly edges: number;
  /** Greatest distance of an edge from its time on paper, ms. */
  readonly worstMs: number;
  /** Slope of the straight line through all distances, and its standard error: ms in a day. */
  readonly driftMsPerDay: number;
  readonly driftUncertainty: number;
  /** Greatest error of a time between two edges of one lamp, ms: what of the distance is not handed on. */
  readonly intervalMs: number;
  /** First thing that is not as on paper, or null. */
  readonly wrong: string | null;
}

/** Where on paper an edge belongs (ms) and how much later it came (ms). */
interface Distance {
  readonly at: number;
  readonly late: number;
}

/**
 * `start`: the cycle at which the schedule began. Edges are compared lamp by lamp, one after the other, so an edge may
 * be late by more than an interval of another lamp without any being taken for it.
 */
export function siteErrors(edges: readonly Edge[], site: PaperSite, start: number): SiteErrors {
  const lamps = site.rows[0]?.lit.length ?? 0;
  const untilMs = ((edges.at(-1)?.cycles ?? start) - start) / CYCLES_PER_MS;
  const distances: Distance[] = [];
  let intervalMs = 0;
  let wrong: string | null = null;
  for (let lamp = site.firstLamp; lamp < site.firstLamp + lamps; lamp++) {
    const measured = edges.filter((edge) => edge.lamp === lamp);
    // The longest cycle of a site is well under two minutes.
    const ideal = idealEdges([site], untilMs + 120_000).filter((edge) => edge.lamp === lamp);
    let before: number | null = null;
    for (const [index, { cycles, lit }] of measured.entries()) {
      const due = ideal[index];
      if (!due || due.lit !== lit) {
        wrong ??= `edge ${index} of lamp ${lamp} is none of the schedule`;
        break;
      }
      const late = (cycles - start) / CYCLES_PER_MS - due.ms;
      intervalMs = Math.max(intervalMs, Math.abs(late - (before ?? late)));
      before = late;
      distances.push({ at: due.ms, late });
    }
    // However late: who has lost a tenth of the time has stopped.
    if (measured.length < ideal.filter(({ ms }) => ms < 0.9 * untilMs).length)
      wrong ??= `edges of lamp ${lamp} are missing`;
  }
  return { edges: distances.length, ...straightLine(distances), worstMs: greatest(distances), intervalMs, wrong };
}

/** A straight line through the distances by least squares. */
function straightLine(distances: readonly Distance[]): Pick<SiteErrors, 'driftMsPerDay' | 'driftUncertainty'> {
  const count = distances.length;
  const at = mean(distances.map((one) => one.at));
  const late = mean(distances.map((one) => one.late));
  const spread = distances.reduce((sum, one) => sum + (one.at - at) ** 2, 0);
  const slope = spread ? distances.reduce((sum, one) => sum + (one.at - at) * (one.late - late), 0) / spread : 0;
  const rest = distances.map((one) => one.late - late - slope * (one.at - at));
  const variance = rest.reduce((sum, value) => sum + value ** 2, 0) / Math.max(1, count - 2);
  return {
    driftMsPerDay: slope * MS_PER_DAY,
    driftUncertainty: spread ? Math.sqrt(variance / spread) * MS_PER_DAY : 0,
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

function greatest(distances: readonly Distance[]): number {
  return distances.reduce((most, { late }) => Math.max(most, Math.abs(late)), 0);
}

/** The same for each site of a board, from its first edge on. */
export function errorsOf(edges: readonly Edge[], sites: readonly PaperSite[]): SiteErrors[] {
  const start = edges[0]?.cycles ?? 0;
  return sites.map((site) => siteErrors(edges, site, start));
}

/** The worst of several sites, and the fastest drift. */
export function worstOf(sites: readonly SiteErrors[]): SiteErrors {
  const wrong = sites.find((site) => site.wrong !== null)?.wrong ?? null;
  const most = sites.reduce((worst, site) =>
    Math.abs(site.driftMsPerDay) > Math.abs(worst.driftMsPerDay) ? site : worst,
  );
  return {
    edges: sites.reduce((sum, { edges }) => sum + edges, 0),
    worstMs: Math.max(...sites.map(({ worstMs }) => worstMs)),
    driftMsPerDay: most.driftMsPerDay,
    driftUncertainty: most.driftUncertainty,
    intervalMs: Math.max(...sites.map(({ intervalMs }) => intervalMs)),
    wrong,
  };
}
