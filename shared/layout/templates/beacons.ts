/** The beacons of an emergency or works vehicle. */
import type { Beacons } from '../kinds/beacons.ts';
import type { Colour } from '../outputs.ts';
import { type LampOutput, outputOf } from './lamp-output.ts';

export interface BeaconsWish {
  readonly id: string;
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  /** The first is on one side, the second on the other, and so on. */
  readonly pins: readonly LampOutput[];
  /** Default: blue; amber for a works vehicle. */
  readonly colour?: Colour;
  /** Default: alternate, for one lamp together. */
  readonly flash?: NonNullable<Beacons['flash']>;
  /** Id of the input that lets them flash. */
  readonly switch?: string;
}

export function makeBeacons(wish: BeaconsWish): Beacons {
  const { id, name, board, pins, colour, switch: input } = wish;
  const flash = wish.flash ?? (pins.length === 1 ? 'together' : 'alternate');
  return {
    kind: 'beacons',
    id,
    name,
    board,
    flash,
    lamps: pins.map((pin, index) => ({
      id: `beacon-${index + 1}`,
      name: `Beacon ${index + 1}`,
      ...outputOf(pin),
      ...(colour === undefined ? {} : { colour }),
    })),
    ...(input === undefined ? {} : { switch: input }),
  };
}
