/** Outputs of a board by their numbers and by their names. */
import type { Board, Lamp } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { BOARD_PINS, countedPin, namedPin } from '../templates/pins.ts';

/** As in the board image: below, board pins; from here on, bits of the chain. A test holds it against the format. */
export const FIRST_BIT = 128;

/** The board's own LED hangs on it, and boot loaders blink it. */
export const OWN_LED = 13;

export function boardOf(layout: Layout, board: string): Board | null {
  return layout.boards.find(({ id }) => id === board) ?? null;
}

/** Number of an output as the document names it; null where the board has none. */
export function outputNumber(board: Board, { pin, bit }: Pick<Lamp, 'pin' | 'bit'>): number | null {
  if (bit !== undefined) return FIRST_BIT + bit;
  if (pin === undefined) return null;
  const { analogue, last } = BOARD_PINS[board.chip];
  const number = countedPin(pin, analogue);
  return number >= 0 && number <= last ? number : null;
}

/** The same as the document writes it. */
export function outputFields(
  board: Pick<Board, 'chip'>,
  output: number,
): { readonly pin: string } | { readonly bit: number } {
  return output >= FIRST_BIT ? { bit: output - FIRST_BIT } : { pin: namedPin(output, BOARD_PINS[board.chip].analogue) };
}

/** What a person reads: `D5`, `A2`, `bit 12`. */
export function outputName(board: Pick<Board, 'chip'>, output: number): string {
  const fields = outputFields(board, output);
  return 'pin' in fields ? fields.pin : `bit ${fields.bit}`;
}
