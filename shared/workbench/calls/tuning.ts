/** Calls for tuning: several times at once, holding what comes next, all boards from one moment, keeping what was kept. */
import { z } from 'zod';

const board = z.string().min(1).max(64);
const count = z.int().min(0).max(255);
const ms = z.int().min(0).max(32_767_000);

/** Who changed a time: a person at the dial, a switch between two sets, a step back or on in the list of changes. */
export const WHO = ['sets', 'walk', 'plan', 'undo'] as const;

export const TUNING_CALLS = {
  /**
   * Several dials one right after the other, with one line of the log: `what`, such as "Switched to B", then the times.
   * A dial that the board refuses is left; the answer has those that it took.
   */
  tune: z.strictObject({
    board,
    changes: z
      .array(z.strictObject({ site: count, dial: count, ms }))
      .min(1)
      .max(512),
    what: z.string().min(1).max(200),
    who: z.enum(WHO),
  }),
  /** Hold a site as soon as it enters one of these rows; an empty list: no longer. Ends with the connection. */
  holdAt: z.strictObject({ board, site: count, rows: z.array(count).max(255) }),
  /** Start all sites of all boards that run the layout, at one moment as near as can be. */
  startTogether: z.strictObject({}),
  /**
   * Make the board keep a table that it kept before, named by its CRC (`BoardState.keptCrc`), while what runs stays.
   * The board stands still meanwhile and its memory is written once.
   */
  keepEarlier: z.strictObject({ board, crc: z.string().max(8) }),
} as const;

export interface TuningResults {
  tune: { readonly changes: readonly { readonly site: number; readonly dial: number; readonly ms: number }[] };
  holdAt: null;
  /** `within`: all started within so many ms of each other, as far as can be told; null where it was one board. */
  startTogether: { readonly boards: readonly string[]; readonly within: number | null };
  /** `stood`: the board stood still for so long, ms. */
  keepEarlier: { readonly keeps: number; readonly stood: number };
}
