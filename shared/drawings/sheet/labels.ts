/** Labels to cut out, two for each wire: one for each end. */
import { pinName } from '../../signals/pins.ts';
import { heading, html, paragraph, text } from './html.ts';
import type { SheetBoard } from './model.ts';
import { commonText, wireText } from './words.ts';

export interface WireLabel {
  /** The same at both ends. */
  readonly wire: string;
  /** Where this end is. */
  readonly end: string;
}

/** Every wire of a board with both its ends; a shared output has an end at each of its heads. */
export function wireLabels({ loads, compiled, board }: SheetBoard): WireLabel[] {
  const both = (wire: string, far: string): WireLabel[] => [
    { wire, end: 'board end' },
    { wire, end: far },
  ];
  const lamps = loads.flatMap((load): WireLabel[] => {
    const [first] = load.heads;
    const near = load.heads.length === 1 && first ? wireText(load, first.name) : wireText(load, load.label);
    const ends = load.heads.map(({ name }) => ({ wire: wireText(load, name), end: 'post end' }));
    return [{ wire: near, end: 'board end' }, ...ends];
  });
  const commons = commonWires(loads).flatMap((wire) => both(wire, 'post end'));
  const inputs = compiled.table.inputs.flatMap(({ name, pin }) =>
    both(`${pinName(pin, board.chip)} ${name}`, 'far end'),
  );
  return [...lamps, ...commons, ...inputs, ...chainLabels(compiled, board.chip, both)];
}

/** One return wire for each head: `GND Market Cross Fore Street`. */
function commonWires(loads: SheetBoard['loads']): string[] {
  const wires = loads.flatMap((load) =>
    load.heads.map(({ name }) => `${commonText(load)} ${load.site === null ? '' : `${load.siteName} `}${name}`),
  );
  return [...new Set(wires)];
}

function chainLabels(
  { table }: SheetBoard['compiled'],
  chip: SheetBoard['board']['chip'],
  both: (wire: string, far: string) => WireLabel[],
): WireLabel[] {
  const { chain } = table;
  if (chain === null) return [];
  const wires: readonly [number | null, string][] = [
    [chain.data, 'data'],
    [chain.clock, 'clock'],
    [chain.latch, 'latch'],
    [chain.enable, 'output enable'],
  ];
  return wires.flatMap(([pin, name]) => (pin === null ? [] : both(`${pinName(pin, chip)} chain ${name}`, 'chip end')));
}

export function labelsSection(sheet: SheetBoard): string {
  const labels = wireLabels(sheet);
  return html(
    'section',
    { class: 'page' },
    heading(`${sheet.compiled.name}: wire labels`),
    paragraph('Cut along the dashed lines, fold each label round the end of its wire and glue it to itself.'),
    html(
      'ul',
      { class: 'labels' },
      ...labels.map(({ wire, end }) => html('li', {}, html('strong', {}, text(wire)), '<br/>', text(end))),
    ),
  );
}
