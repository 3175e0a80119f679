/** A chain of shift registers behind a board, and lamps that move to it. */
import type { Chain } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { type Edited, noSuchBoard, refused } from './edit.ts';
import { lampPlaces } from './lamps.ts';
import { boardOf, FIRST_BIT, OWN_LED, outputFields } from './numbers.ts';
import { outputsOf } from './outputs.ts';
import { withValueAt } from './path.ts';
import { permute } from './permute.ts';
import { rankOf } from './rank.ts';

/** Chips that a board can address (firmware/PROTOCOL.md, capacities); a test holds them against the format. */
export const MOST_CHIPS = { atmega328p: 8, atmega2560: 16 } as const;

const BITS = 8;
/** In the order in which pins are chosen for them. */
const WIRES = ['data', 'clock', 'latch', 'enable'] as const;

export interface ChainWish {
  /** Ids of the sites whose lamps move to the chain. */
  readonly sites: readonly string[];
  /** At least as many as the lamps need. Default: just as many. */
  readonly chips?: number;
}

/** How many chips are needed so that these lamps fit beside those that are on the chain now. */
export function chipsFor(layout: Layout, boardId: string, sites: readonly string[]): number {
  const lamps = lampPlaces(layout, boardId);
  const moving = lamps.filter(({ site, output }) => isMoving(site, output, sites));
  const bits = lamps.flatMap(({ output }) => (output !== null && output >= FIRST_BIT ? [output - FIRST_BIT] : []));
  const end = Math.max(0, ...bits.map((bit) => bit + 1));
  const free = end - new Set(bits).size;
  const beyond = Math.max(0, moving.length - free);
  return Math.max(boardOf(layout, boardId)?.chain?.chips ?? 0, Math.ceil((end + beyond) / BITS), 1);
}

const isMoving = (site: string | null, output: number | null, sites: readonly string[]): boolean =>
  site !== null && sites.includes(site) && (output === null || output < FIRST_BIT);

/**
 * The chain is made, or made longer, and the lamps of the sites go to its free bits in order. Its wires take the pins
 * that come free, plain ones first, never D13; the fourth wire (output enable) keeps the lamps dark until the board has
 * started, and is left out only where no pin is left for it.
 */
export function addChain(layout: Layout, boardId: string, { sites, chips }: ChainWish): Edited {
  const board = boardOf(layout, boardId);
  if (board === null) return noSuchBoard(boardId);
  const path = `boards[${layout.boards.indexOf(board)}]`;
  const needed = Math.max(chipsFor(layout, boardId, sites), chips ?? 1);
  const most = MOST_CHIPS[board.chip];
  if (needed > most) {
    return refused('too-many-chips', path, {
      what: `The lamps would need ${needed} chips in the chain of ${board.name}.`,
      why: `The board can address ${most}.`,
      cure: 'Move fewer sites to the chain, or take a second board.',
    });
  }
  const moving = lampPlaces(layout, boardId).filter(({ site, output }) => isMoving(site, output, sites));
  const wires = board.chain
    ? null
    : chainPins(
        layout,
        boardId,
        moving.flatMap(({ output }) => output ?? []),
      );
  if (wires !== null && wires.length < 3) {
    return refused('no-pins-for-chain', path, {
      what: `${board.name} has no three pins for the wires of a chain.`,
      why: 'Data, clock and latch each need one; those of the lamps that move to the chain count as free.',
      cure: 'Move more sites to the chain, or take the larger board.',
    });
  }
  const chain: Chain = board.chain
    ? { ...board.chain, chips: needed }
    : ({ chips: needed, ...Object.fromEntries((wires ?? []).map((pin, index) => [WIRES[index], pin])) } as Chain);
  const bare = withChain(
    layout,
    boardId,
    chain,
    moving.map(({ path: lamp }) => lamp),
  );
  const free = outputsOf(bare, boardId).filter(({ output, use }) => output >= FIRST_BIT && use.is === 'free');
  const done = permute(
    bare,
    boardId,
    new Map(moving.map(({ path: lamp }, index) => [lamp, free[index]?.output ?? -1])),
  );
  if ('findings' in done) return done;
  const counted = `${needed} ${needed === 1 ? 'chip' : 'chips'}`;
  const what = board.chain
    ? `Made the chain of ${board.name} ${counted} long`
    : `Gave ${board.name} a chain of ${counted}`;
  return { layout: done.layout, said: `${what}, with ${moving.length} lamps on it.` };
}

/** Up to four pin names. */
function chainPins(layout: Layout, boardId: string, freed: readonly number[]): string[] {
  const board = boardOf(layout, boardId);
  if (board === null) return [];
  return outputsOf(layout, boardId)
    .filter(
      ({ output, use }) => (use.is === 'free' || freed.includes(output)) && output !== OWN_LED && output < FIRST_BIT,
    )
    .map(({ output }) => output)
    .sort((a, b) => rankOf(board.chip, a) - rankOf(board.chip, b) || a - b)
    .slice(0, WIRES.length)
    .flatMap((output) => {
      const fields = outputFields(board, output);
      return 'pin' in fields ? [fields.pin] : [];
    });
}

/** The board with its chain; the lamps that move have no output for the moment, so that its wires may take theirs. */
function withChain(layout: Layout, boardId: string, chain: Chain, moving: readonly string[]): Layout {
  const boards = layout.boards.map((it) => (it.id === boardId ? { ...it, chain } : it));
  const lamps = lampPlaces(layout, boardId).filter(({ path }) => moving.includes(path));
  return lamps.reduce<Layout>(
    (next, { path, lamp: { pin: _pin, bit: _bit, ...rest } }) => withValueAt(next, path, rest),
    { ...layout, boards },
  );
}
