/** A row of street lamps. */
import type { StreetLamps } from '../kinds/street-lamps.ts';
import { type LampOutput, outputOf } from './lamp-output.ts';

export interface StreetLampsWish {
  readonly id: string;
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  /** One for each lamp, along the street. */
  readonly pins: readonly LampOutput[];
  /** Default: always. */
  readonly when?: 'always' | 'night';
  /** Id of the input that lights them, instead of `when`. */
  readonly switch?: string;
}

/** Discharge lamps, here and there. */
export function makeStreetLamps({ id, name, board, pins, when, switch: input }: StreetLampsWish): StreetLamps {
  return {
    kind: 'street-lamps',
    id,
    name,
    board,
    lamps: pins.map((pin, index) => ({ id: `lamp-${index + 1}`, name: `Lamp ${index + 1}`, ...outputOf(pin) })),
    ...(when === undefined || input !== undefined ? {} : { when }),
    ...(input === undefined ? {} : { switch: input }),
  };
}
