/** A board of the layout with the larger chip in its place. */
import type { Board } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { BOARD_PINS } from '../templates/pins.ts';

/** The same layout where there is no such board, or where its chip is the larger one already. */
export function takeLargerBoard(layout: Layout, boardId: string): Layout {
  const board = layout.boards.find(({ id }) => id === boardId);
  if (board?.chip !== 'atmega328p') return layout;
  const named = <T extends { readonly board: string }>(items: readonly T[]): T[] =>
    items.map((item) => (item.board === boardId ? withNames(item) : item));
  const larger: Board = { ...withNames(board), chip: 'atmega2560' };
  return {
    ...layout,
    boards: layout.boards.map((it) => (it === board ? larger : it)),
    sites: named(layout.sites),
    ...(layout.inputs && { inputs: named(layout.inputs) }),
    ...(layout.groups && { groups: named(layout.groups) }),
  };
}

const PINS = ['pin', 'data', 'clock', 'latch', 'enable'];

/** A0 has another number on the larger chip; its name stays. */
function withNames<T>(value: T): T {
  if (Array.isArray(value)) return value.map(withNames) as T;
  if (typeof value !== 'object' || value === null) return value;
  const { analogue, last } = BOARD_PINS.atmega328p;
  const entries = Object.entries(value).map(([key, item]) => {
    const isAnalogue = PINS.includes(key) && typeof item === 'number' && item >= analogue && item <= last;
    return [key, isAnalogue ? `A${item - analogue}` : withNames(item)];
  });
  return Object.fromEntries(entries) as T;
}
