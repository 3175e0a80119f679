/** Outputs of a board by their numbers, and what each of them is used for. */
import type { Board } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { BOARD_PINS } from '../templates/pins.ts';
import { type LampPlace, lampPlaces } from './lamps.ts';
import { boardOf, FIRST_BIT, outputName, outputNumber } from './numbers.ts';

const SERIAL_PINS = 2;

export type Use =
  | { readonly is: 'free' }
  | { readonly is: 'serial' }
  | { readonly is: 'lamp'; readonly lamp: LampPlace }
  | { readonly is: 'input'; readonly name: string }
  | { readonly is: 'chain'; readonly wire: 'data' | 'clock' | 'latch' | 'enable' };

export interface Output {
  readonly output: number;
  /** What a person reads: `D5`, `A2`, `bit 12`. */
  readonly name: string;
  /** More than one use is a mistake that the compiler tells of; the first counts. */
  readonly use: Use;
}

/** Every pin of the board and every bit of its chain, in order, each with its use. None where there is no such board. */
export function outputsOf(layout: Layout, boardId: string): Output[] {
  const board = boardOf(layout, boardId);
  if (board === null) return [];
  const pins = Array.from({ length: BOARD_PINS[board.chip].last + 1 }, (_, pin) => pin);
  const bits = Array.from({ length: (board.chain?.chips ?? 0) * 8 }, (_, bit) => FIRST_BIT + bit);
  const uses = usesOf(layout, board);
  return [...pins, ...bits].map((output) => ({
    output,
    name: outputName(board, output),
    use: output < SERIAL_PINS ? { is: 'serial' } : (uses.get(output) ?? { is: 'free' }),
  }));
}

function usesOf(layout: Layout, board: Board): ReadonlyMap<number, Use> {
  const uses = new Map<number, Use>();
  const note = (output: number | null, use: Use): void => {
    if (output !== null && !uses.has(output)) uses.set(output, use);
  };
  const { chain } = board;
  for (const wire of ['data', 'clock', 'latch', 'enable'] as const) {
    const pin = chain?.[wire];
    if (pin !== undefined) note(outputNumber(board, { pin }), { is: 'chain', wire });
  }
  for (const input of layout.inputs ?? []) {
    if (input.board === board.id) note(outputNumber(board, { pin: input.pin }), { is: 'input', name: input.name });
  }
  for (const lamp of lampPlaces(layout, board.id)) note(lamp.output, { is: 'lamp', lamp });
  return uses;
}

/** Outputs that carry a lamp or could: neither serial line, input nor wire of the chain. */
export function lampOutputs(layout: Layout, board: string): Output[] {
  return outputsOf(layout, board).filter(({ use }) => use.is === 'free' || use.is === 'lamp');
}
