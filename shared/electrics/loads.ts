/** What hangs on each output of a board: the lamps of the document by the numbers of the table. */
import type { Layout } from '../layout/schema.ts';
import { outputName } from '../layout/wiring/numbers.ts';
import { stepsOf } from '../layout/wiring/path.ts';
import type { CompiledBoard, CompiledLamp } from '../signals/compile.ts';
import { headsAt, lampAt } from './document-lamp.ts';
import { circuitOf, WIRE } from './lamp-circuit.ts';
import type { Load } from './model.ts';
import { wireOf } from './usual.ts';

/** One for each lamp of the table, in its order; `compiled` must come from the same layout. */
export function loadsOf(layout: Layout, compiled: CompiledBoard): Load[] {
  const board = layout.boards.find(({ id }) => id === compiled.id);
  if (board === undefined) return [];
  const load = (it: CompiledLamp, site: { id: string | null; name: string }): Load[] => {
    const lamp = lampAt(layout, it.path);
    const entry = compiled.table.lamps[it.index];
    if (lamp === null || entry === undefined) return [];
    const isSync = stepsOf(it.path)[0] === 'groups';
    return [
      {
        lamp: it.index,
        output: entry.output,
        outputName: outputName(board, entry.output),
        site: site.id,
        siteName: site.name,
        label: it.label,
        colour: it.colour,
        path: it.path,
        activeLow: entry.activeLow,
        wire: wireOf(lamp, it.colour, it.path),
        heads: headsAt(layout, it.path),
        circuit: isSync && lamp.electrics === undefined ? WIRE : circuitOf(layout, board, lamp, it.colour),
      },
    ];
  };
  return [
    ...compiled.sites.flatMap((site) => site.lamps.flatMap((lamp) => load(lamp, site))),
    ...compiled.others.flatMap((lamp) => load(lamp, { id: null, name: board.name })),
  ].sort((a, b) => a.lamp - b.lamp);
}

/** A wire to another board: no lamp hangs on it. */
export function isWire(load: Load): boolean {
  return load.circuit.milliamps === 0;
}
