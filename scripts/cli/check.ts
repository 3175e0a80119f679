/** `amberwick check FILE`: everything that is wrong with a layout, and what would be sent. */
import { checkElectrics } from '../../shared/electrics/check/check.ts';
import { loadLayout } from './load.ts';
import { exitFor, type Report } from './output.ts';

export function check(file: string): Report {
  const loaded = loadLayout(file);
  if (!loaded.ok) return loaded.report;
  const { layout, boards } = loaded.value;
  const findings = [...loaded.value.findings, ...checkElectrics(layout, boards)];
  const exit = exitFor(findings);
  const summary = boards.map(
    (board) =>
      `${board.name}: ${board.sites.length} sites, ${board.table.lamps.length} lamps, ${board.free} bytes of the board's memory left`,
  );
  return {
    exit,
    findings,
    data: {
      layout: layout.name,
      boards: boards.map(({ id, name, sites, table, free }) => ({
        id,
        name,
        sites: sites.length,
        lamps: table.lamps.length,
        free,
      })),
    },
    text: exit === 0 ? [`${layout.name}: nothing wrong.`, ...summary] : summary,
  };
}
