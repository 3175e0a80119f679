/**
 * How often the memory of a board has been written. Its data sheet (8271 and 2549, features) promises 100,000 cycles
 * for each byte. What wears most:
 *
 * - A keep writes the mark of one slot twice (first spoilt, then made good), and the slots take turns: on the average
 *   each mark is written once a keep. The bytes of a table are written only where they change, every other keep.
 * - An upload writes the bytes of the spare slot that change, once at most, and may spoil its mark, which the keep
 *   then does not do again.
 *
 * So no byte has been written more often than the board kept and was sent tables together. That is what is counted.
 * The board counts keeps in 16 bits and uploads not at all; the book goes on counting where the board begins anew.
 */

export interface Tally {
  /** Keeps in all, as far as they are known. */
  readonly keeps: number;
  /** What the board told last. */
  readonly told: number;
  /** Tables sent from this computer. */
  readonly sends: number;
}

export const NOTHING_WRITTEN: Tally = { keeps: 0, told: 0, sends: 0 };

/** Cycles that each byte of the memory is made for. */
export const CYCLES_MADE_FOR = 100_000;
/** From here on it is said that another board should take over. */
export const WORN_AT = 0.8 * CYCLES_MADE_FOR;

const TURN = 0x10000;

/** The board tells its count of keeps. Behind by more than half a turn: it was erased and begins anew. */
export function told(tally: Tally, keeps: number): Tally {
  const more = (keeps - tally.told + TURN) % TURN;
  return { ...tally, keeps: tally.keeps + (more < TURN / 2 ? more : keeps), told: keeps };
}

export function sent(tally: Tally): Tally {
  return { ...tally, sends: tally.sends + 1 };
}
