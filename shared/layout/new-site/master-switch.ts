/** The switches on the layout itself: night and all off, which need no computer. */
import type { Board, Input } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { freeInputPins } from './allot.ts';
import { freeId } from './names.ts';

const SWITCHES = [
  { key: 'night', name: 'Night switch' },
  { key: 'off', name: 'All-off switch' },
] as const;

/**
 * The board with the switches that it lacks, each from a free pin to ground: run while both are open. Null where there is
 * no such board, nothing is lacking, or too few pins are free.
 */
export function addMasterSwitch(layout: Layout, boardId: string): Layout | null {
  const board = layout.boards.find(({ id }) => id === boardId);
  if (board === undefined) return null;
  const lacking = SWITCHES.filter(({ key }) => board.switches?.[key] === undefined);
  const pins = freeInputPins(layout, boardId);
  if (lacking.length === 0 || pins.length < lacking.length) return null;
  const added: Input[] = [];
  for (const [at, { key, name }] of lacking.entries()) {
    const inputs = [...(layout.inputs ?? []), ...added];
    const id = freeId({ ...layout, inputs }, `${boardId} ${key}`);
    added.push({ id, name, board: boardId, pin: pins[pins.length - 1 - at] ?? '' });
  }
  const switches = { ...board.switches };
  for (const [at, { key }] of lacking.entries()) switches[key] = added[at]?.id;
  const wired: Board = { ...board, switches };
  return {
    ...layout,
    boards: layout.boards.map((it) => (it === board ? wired : it)),
    inputs: [...(layout.inputs ?? []), ...added],
  };
}
