/** A site of a compiled board, as the charts need it. */
import type { Layout, Site } from '../../layout/schema.ts';
import type { CompiledBoard } from '../../signals/compile.ts';
import type { Program } from '../../table/model.ts';
import type { CycleSource } from './cycle.ts';

export interface ChartSite extends CycleSource {
  readonly id: string;
  readonly name: string;
  /** The site in the document: where phases and stages have their names. */
  readonly site: Site;
  readonly dialNames: readonly string[];
  /** One for each lamp of the program. */
  readonly lamps: readonly { readonly label: string; readonly colour: string }[];
  /** One for each row of the program. */
  readonly rowLabels: readonly string[];
  /** One for each input of the program. */
  readonly inputNames: readonly string[];
}

/** The site of that number on a compiled board, at its planned times; null when there is none. */
export function chartSite(layout: Layout, board: CompiledBoard, index: number): ChartSite | null {
  const names = board.sites[index];
  const binding = board.table.sites[index];
  const program: Program | undefined = binding && board.table.programs[binding.program];
  const site = layout.sites.find((it) => it.id === names?.id);
  if (!names || !binding || !program || !site) return null;
  const group = binding.group === null ? undefined : board.table.groups[binding.group];
  return {
    id: names.id,
    name: names.name,
    site,
    program,
    start: binding.start,
    dials: binding.dials,
    inputs: binding.inputs,
    common: group?.cycle.value ?? null,
    dialNames: names.dials.map((dial) => dial.name),
    lamps: names.lamps,
    rowLabels: names.rows.map((row) => row.label),
    inputNames: binding.inputs.map((input, at) => {
      const name = input === null ? undefined : board.table.inputs[input]?.name;
      return name ?? program.inputs[at] ?? `input ${at + 1}`;
    }),
  };
}

/** The same site at other times, such as those that run. */
export function atTimes(site: ChartSite, dials: readonly (number | null)[]): ChartSite {
  return { ...site, dials: site.dials.map((planned, index) => dials[index] ?? planned) };
}
