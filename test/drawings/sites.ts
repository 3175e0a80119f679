/** Sites for the drawings: of the example, of the hand-made tables, and junctions with any phases. */
import { readFileSync } from 'node:fs';
import { type ChartSite, chartSite } from '../../shared/drawings/phases/source.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import type { Junction } from '../../shared/layout/sites.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { everyKind } from '../fixtures/sites/index.ts';

export function penmarrow(): Layout {
  const file = new URL('../../shared/layout/examples/penmarrow.json', import.meta.url);
  return read(readFileSync(file, 'utf8'));
}

export function read(text: string): Layout {
  const { layout, findings } = parseLayout(text);
  if (layout === null) throw new Error(JSON.stringify(findings));
  return layout;
}

/** A site of a layout as it is compiled. */
export function compiledSite(layout: Layout, id: string): ChartSite {
  const { boards, findings } = compileLayout(layout);
  for (const board of boards) {
    const index = board.sites.findIndex((site) => site.id === id);
    const site = index < 0 ? null : chartSite(layout, board, index);
    if (site !== null) return site;
  }
  throw new Error(JSON.stringify(findings));
}

export const marketCross = (): ChartSite => compiledSite(penmarrow(), 'market-cross');

const COLOURS: Readonly<Record<string, string>> = {
  R: 'red',
  L: 'red',
  A: 'amber',
  O: 'amber',
  G: 'green',
  F: 'green',
  Y: 'yellow',
};

/** A hand-made table as if it came from a layout: heads by their names, colours by their letters. */
export function madeByHand(kind: string, index = 0): ChartSite {
  const table = everyKind[kind] as BoardTable;
  const binding = table.sites[index];
  const program = table.programs[binding?.program ?? 0];
  if (!binding || !program) throw new Error(`no ${kind}`);
  const rowLabels = program.rows.map((row, number) => `${number} ${row.op}`);
  return {
    id: kind,
    name: binding.name,
    site: { kind: 'program', id: 'p', name: kind, board: 'b', lamps: [], dials: [], rows: [] },
    program,
    start: binding.start,
    dials: binding.dials,
    inputs: binding.inputs,
    common: binding.group === null ? null : (table.groups[binding.group]?.cycle.value ?? null),
    dialNames: program.dials.map((dial) => dial.name),
    lamps: program.lamps.map((name) => ({ label: name.slice(0, -2), colour: COLOURS[name.at(-1) ?? ''] ?? 'white' })),
    rowLabels,
    inputNames: program.inputs,
  };
}

/** A junction with so many phases, two to a stage, with names as long as names may be. */
export function junctionOf(phases: number): Layout {
  const ids = [...'ABCDEFGH'].slice(0, phases);
  const stages = ids
    .filter((_, at) => at % 2 === 0)
    .map((id, at) => ({
      id: `${at + 1}`,
      phases: ids.slice(2 * at, 2 * at + 2),
      name: `Stage of ${id} with a rather long name`,
    }));
  const site = {
    kind: 'junction',
    id: 'cross',
    name: 'Cross Street by the old harbour wall and the customs house',
    board: 'town',
    phases: ids.map((id, at) => ({
      id,
      name: `${id === 'A' ? 'Way' : 'Harbour Promenade and Esplanade'} ${at + 1}`,
      lamps: { red: { bit: 3 * at }, amber: { bit: 3 * at + 1 }, green: { bit: 3 * at + 2 } },
    })),
    heads: ids.map((id, at) => ({ id: `h${id}`, name: `Head ${id}`, phase: id, arm: (at * 90) % 360 })),
    stages: stages.map((stage, at) => ({ ...stage, green: 9 + 4 * at })),
    intergreens: phases > 3 ? { A: { C: 5, D: 8 }, B: { C: 6, D: 7 } } : {},
  };
  return read(
    JSON.stringify({
      format: 'amberwick-layout',
      version: 1,
      name: 'Penmarrow',
      scale: 'OO',
      practice: 'uk-today',
      boards: [
        {
          id: 'town',
          name: 'Town board',
          chip: 'atmega2560',
          chain: { chips: 3, data: 'D2', clock: 'D3', latch: 'D4' },
        },
      ],
      sites: [site],
    }),
  );
}

export function junction(site: Partial<Junction> & Pick<Junction, 'phases' | 'stages'>): Junction {
  return { kind: 'junction', id: 'j', name: 'The Cross', board: 'town', ...site };
}
