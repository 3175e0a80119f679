/** Forgotten wires that were found by lighting outputs: into the plan, so that every lamp still has an output of its own. */
import { error } from '../findings/make.ts';
import type { Layout } from '../layout/schema.ts';
import type { Edited } from '../layout/wiring/edit.ts';
import { type LampPlace, lampPlaces } from '../layout/wiring/lamps.ts';
import { withValueAt } from '../layout/wiring/path.ts';
import { permute } from '../layout/wiring/permute.ts';

/** What was seen when an output was lit. */
export interface FoundWire {
  /** As in the board image. */
  readonly output: number;
  /** The lamp that did light, by its place in the document; null: one that the plan does not have. */
  readonly path: string | null;
  /** Lit when the output is low; null where that was not tried. */
  readonly activeLow: boolean | null;
  readonly note?: string;
}

export interface FoundMoves {
  /** By place in the document the output that each lamp gets. */
  readonly outputs: ReadonlyMap<string, number>;
  /** Lamps that were not seen and had to make room: they get what is left. */
  readonly displaced: readonly LampPlace[];
}

/** Of a lamp that was pointed at twice, and of an output, the later answer counts. */
export function latestOf(found: readonly FoundWire[]): FoundWire[] {
  return found.filter(
    (wire, at) =>
      !found.some(
        (later, index) =>
          index > at && (later.output === wire.output || (wire.path !== null && later.path === wire.path)),
      ),
  );
}

export function movesOf(layout: Layout, board: string, found: readonly FoundWire[]): FoundMoves {
  const places = lampPlaces(layout, board);
  const outputs = new Map(latestOf(found).flatMap(({ path, output }) => (path === null ? [] : [[path, output]])));
  const taken = new Set(outputs.values());
  const left = places.flatMap(({ path, output }) =>
    output !== null && outputs.has(path) && !taken.has(output) ? [output] : [],
  );
  const displaced = places.filter(({ path, output }) => output !== null && !outputs.has(path) && taken.has(output));
  for (const { path } of displaced) {
    const output = left.shift();
    if (output !== undefined) outputs.set(path, output);
  }
  return { outputs, displaced };
}

/** The plan with all of it; refused with findings where an output is no lamp's. */
export function takeFound(layout: Layout, board: string, found: readonly FoundWire[]): Edited {
  const wires = latestOf(found).filter(({ path }) => path !== null);
  if (wires.length === 0) return { findings: [nothingFound(board)] };
  const { outputs, displaced } = movesOf(layout, board, found);
  const moved = permute(layout, board, outputs);
  if (!('layout' in moved)) return moved;
  const before = lampPlaces(layout, board);
  const changed = before.filter(({ path, output }) => outputs.has(path) && outputs.get(path) !== output);
  const name = layout.boards.find(({ id }) => id === board)?.name ?? board;
  const elsewhere = changed.filter((place) => !displaced.includes(place)).length;
  const said = `Found the wires of ${wires.length} ${wires.length === 1 ? 'lamp' : 'lamps'} on ${name}, ${elsewhere} of them at another output than planned.`;
  return { layout: wires.reduce((next, wire) => withPolarity(next, board, wire), moved.layout), said };
}

function withPolarity(layout: Layout, board: string, { path, activeLow }: FoundWire): Layout {
  const place = lampPlaces(layout, board).find((it) => it.path === path);
  if (!place || activeLow === null || activeLow === (place.lamp.activeLow ?? false)) return layout;
  const { activeLow: _, ...rest } = place.lamp;
  return withValueAt(layout, place.path, activeLow ? { ...rest, activeLow } : rest);
}

function nothingFound(board: string) {
  return error('nothing-found', `boards`, {
    what: `No lamp of the plan was seen on board ${board}.`,
    why: 'There is nothing to write into the plan.',
    cure: 'Light the outputs once more, or put the sites into the plan first.',
  });
}
