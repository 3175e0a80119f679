import type { ReadonlySignal } from '@preact/signals';
import type { LampLook } from '../model/board.ts';
import type { Point } from './vectors.ts';

/** Colours of lamps as they are written on a plan. */
export const LETTERS: Readonly<Record<string, string>> = {
  red: 'R',
  amber: 'A',
  green: 'G',
  white: 'W',
  'warm-white': 'W',
  blue: 'B',
  yellow: 'Y',
};

interface Props {
  /** Number on the board, for whoever compares the screen with the pins. */
  readonly index: number;
  readonly board: string;
  readonly colour: string;
  readonly look: ReadonlySignal<LampLook>;
  readonly at: Point;
  readonly r: number;
  /** Turn of the symbol that the lamp belongs to: letters stay upright. */
  readonly turn: number;
}

/** One lamp: its bloom when lit, its letter always. */
export function Lamp({ index, board, colour, look, at, r, turn }: Props) {
  return (
    <g class="lamp" data-colour={colour} data-look={look} data-lamp={`${board} ${index}`}>
      <circle class="bloom" cx={at.x} cy={at.y} r={r * 2.7} fill={`url(#bloom-${colour})`} />
      <circle class="bulb" cx={at.x} cy={at.y} r={r} />
      <text
        class="letter"
        x={at.x}
        y={at.y}
        dy="0.355em"
        font-size={r * 1.6}
        transform={`rotate(${-turn} ${at.x} ${at.y})`}
      >
        {LETTERS[colour] ?? '·'}
      </text>
    </g>
  );
}
