/** How long the changes between stages take on a phase chart. */
import type { PhaseChart } from '../phases/chart.ts';

/** For each stage of the junction the ms of the change that follows it; null where the chart has none. */
export function stageChanges({
  site,
  stages,
  cycle,
}: Pick<PhaseChart, 'site' | 'stages' | 'cycle'>): (number | null)[] {
  if (site.site.kind !== 'junction') return [];
  const at = (place: number): { readonly from: number; readonly to: number } => cycle.rows[place] ?? { from: 0, to: 0 };
  return site.site.stages.map((_, stage) => {
    const span = stages.findIndex((it) => it.is === 'stage' && it.stage === stage);
    const next = span < 0 ? undefined : stages[(span + 1) % stages.length];
    if (next === undefined) return null;
    // Two stages without anything between them follow each other at once.
    return next.is === 'interstage' ? at(next.last).to - at(next.first).from : 0;
  });
}
