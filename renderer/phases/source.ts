/** The site at hand as its chart needs it, at the times that run, or at those that are planned. */
import { atTimes, chartSite } from '../../shared/drawings/phase-chart.ts';
import type { ChartSite } from '../../shared/drawings/phases/source.ts';
import type { OpenSite } from '../model/document.ts';
import type { Model } from '../model/model.ts';

export function chartOf(model: Model, site: OpenSite): ChartSite | null {
  const { layout, boards } = model.open.value;
  const board = boards.find(({ id }) => id === site.board);
  const planned = layout && board ? chartSite(layout, board, site.number) : null;
  if (!planned) return null;
  const runs = model.board(site.board).runsLayout.value;
  const dials = site.names.dials.map((_, dial) =>
    runs ? model.nudges.value({ board: site.board, site: site.number, dial }) : null,
  );
  return atTimes(planned, dials);
}
