/**
 * The second baseline: the computer switches every lamp over the serial line. Its timers are late as measured on this
 * computer; the chip that takes the bytes is emulated.
 */
import type { BoardTable } from '../../../shared/table/model.ts';
import type { Dice } from '../../fixtures/dice.ts';
import { type BuiltProgram, powered } from '../baseline/build.ts';
import type { PaperSite } from '../ideal.ts';
import { CYCLES_PER_MS, type Edge } from '../rig.ts';
import type { Lateness } from './timers.ts';

/** A byte waits for the next frame of the USB: a model, one millisecond at most. */
const USB_FRAME_MS = 1;

export interface HostOptions {
  readonly lateness: Lateness;
  /** True: each timer is set by when the interval is due; false: for the interval's time, as it is usually done. */
  readonly byDeadline: boolean;
  readonly ms: number;
}

/** A site on the computer: which row it shows, when its timer fires, when that was due, ms. */
interface Chain {
  readonly site: PaperSite;
  row: number;
  at: number;
  due: number;
}

/** The edges of all lamps, in cycles of the board; `start` is the time of the first one. */
export function hostDriven(
  program: BuiltProgram,
  table: BoardTable,
  sites: readonly PaperSite[],
  dice: Dice,
  options: HostOptions,
): Edge[] {
  const { lateness, byDeadline, ms } = options;
  const { board, edges } = powered(program, table);
  const pins = table.lamps.map(({ output }) => output);
  const lit = pins.map(() => false);
  const chains: Chain[] = sites.map((site) => ({ site, row: 0, at: 100, due: 100 }));
  for (;;) {
    const next = chains.reduce((first, chain) => (chain.at < first.at ? chain : first));
    if (next.at > ms) return edges;
    const row = next.site.rows[next.row];
    if (!row) throw new Error('a site has no rows');
    const sent = (next.at + (USB_FRAME_MS * dice.int(0, 999)) / 1000) * CYCLES_PER_MS;
    board.runUntil(sent);
    board.write(changes(row.lit, next.site.firstLamp, lit, pins));
    // Its timer is set when it has written.
    const due = (byDeadline ? next.due : next.at) + row.ms;
    const late = lateness.late[dice.int(0, lateness.late.length - 1)] ?? 0;
    next.due = due;
    next.at = Math.max(next.at, due + late);
    next.row = (next.row + 1) % next.site.rows.length;
  }
}

/** A byte for each lamp that changes. */
function changes(marks: string, firstLamp: number, lit: boolean[], pins: readonly number[]): Uint8Array {
  const bytes: number[] = [];
  for (const [index, mark] of [...marks].entries()) {
    const lamp = firstLamp + index;
    const isLit = mark !== '.';
    if (lit[lamp] === isLit) continue;
    lit[lamp] = isLit;
    bytes.push((isLit ? 0x80 : 0) | (pins[lamp] ?? 0));
  }
  return Uint8Array.from(bytes);
}
