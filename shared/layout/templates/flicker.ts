/** A fire or a welder. */
import type { Flicker } from '../kinds/flicker.ts';
import { type LampOutput, outputOf } from './lamp-output.ts';

export interface FlickerWish {
  readonly id: string;
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  readonly effect: Flicker['effect'];
  /** A fire looks best with three lamps: red, amber, yellow. */
  readonly pins: readonly LampOutput[];
  /** Id of the input that lights it. */
  readonly switch?: string;
}

export function makeFlicker({ id, name, board, effect, pins, switch: input }: FlickerWish): Flicker {
  const lamp = effect === 'fire' ? 'flame' : 'arc';
  return {
    kind: 'flicker',
    id,
    name,
    board,
    effect,
    lamps: pins.map((pin, index) => ({ id: `${lamp}-${index + 1}`, ...outputOf(pin) })),
    ...(input === undefined ? {} : { switch: input }),
  };
}
