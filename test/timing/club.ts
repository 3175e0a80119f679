/** Layouts as large as they get: one full board, and a club's. */
import type { Layout, Site } from '../../shared/layout/schema.ts';
import { layoutOf } from './layout-of.ts';

/** Bits of the longest chain of an ATmega2560. */
const CHAIN_CHIPS = 16;

/** Hands out the bits of one board's chain. */
class Bits {
  private next = 0;
  lamp(): { bit: number } {
    return { bit: this.next++ };
  }
}

function junction(board: string, index: number, bits: Bits): Site {
  const lamps = () => ({ red: bits.lamp(), amber: bits.lamp(), green: bits.lamp() });
  return {
    kind: 'junction',
    id: `junction-${board}-${index}`,
    name: `Junction ${index} of ${board}`,
    board,
    phases: [
      { id: 'A', name: 'Along', lamps: lamps() },
      { id: 'B', name: 'Across', lamps: lamps() },
    ],
    stages: [
      { id: '1', name: 'Along', phases: ['A'], green: 18 + (index % 7) },
      { id: '2', name: 'Across', phases: ['B'], green: 12 },
    ],
    intergreens: { A: { B: 6 }, B: { A: 6 } },
  };
}

function zebra(board: string, index: number, bits: Bits): Site {
  const beacon = (id: string) => ({ id, ...bits.lamp() });
  return {
    kind: 'zebra',
    id: `zebra-${board}-${index}`,
    name: `Zebra ${index} of ${board}`,
    board,
    beacons: [beacon('left'), beacon('right')],
  } as Site;
}

/** `sites` for each board: junctions and zebras in turn, all lamps on its chain. */
export function clubLayout(sites: readonly number[]): Layout {
  const boards = sites.map((_, at) => `b${at + 1}`);
  return layoutOf({
    boards: boards.map((id) => ({
      id,
      name: `Board ${id}`,
      chip: 'atmega2560',
      chain: { chips: CHAIN_CHIPS, data: 2, clock: 3, latch: 4 },
    })),
    sites: boards.flatMap((board, at) => {
      const bits = new Bits();
      return Array.from({ length: sites[at] ?? 0 }, (_, index) =>
        index % 2 === 0 ? junction(board, index, bits) : zebra(board, index, bits),
      );
    }),
  });
}

/** 32 sites and 128 lamps: as much as one board holds. */
export const FULL_BOARD = [32];

/** A club's: 1,000 sites on 60 boards. */
export const CLUB = Array.from({ length: 60 }, (_, at) => (at < 40 ? 17 : 16));
