/**
 * Rehearses a table: sends it over the serial protocol to the shipped firmware
 * in the emulator, lets it run, and compares every lamp edge with the ideal
 * schedule of the reference interpreter.
 */
import type { BoardTable } from '../../../shared/table/model.ts';
import type { HostError } from '../result.ts';
import { BoardSession } from '../session.ts';
import { type UploadError, upload } from '../upload.ts';
import { VirtualBoard } from './board.ts';
import { CPU_HZ } from './chips.ts';
import { type BoardEdge, type Compared, Comparison } from './comparison.ts';
import { Conflicts } from './conflicts.ts';
import { DirectLine } from './direct.ts';
import { LampWires } from './lamps.ts';

const CYCLES_PER_MS = CPU_HZ / 1000;
/** Board time between two comparisons, ms; bounds what waits in memory. */
const CHUNK_MS = 10_000;

export interface Rehearsal extends Compared {
  /** Pairs of conflicting lamps that were lit together. */
  readonly conflicts: number;
}

export type RehearsalResult =
  | { readonly ok: true; readonly rehearsal: Rehearsal }
  | { readonly ok: false; readonly error: UploadError | HostError };

export interface RehearsalOptions {
  readonly flash: Uint8Array;
  readonly table: BoardTable;
  /** The image of the table. */
  readonly image: Uint8Array;
  /** Board time to run, ms. */
  readonly ms: number;
  readonly onEdge?: (edge: BoardEdge) => void;
  /** Board time done so far, ms. */
  readonly onProgress?: (ms: number) => void;
}

/** Inputs are left unconnected: pulled up where the table says so, else low. */
export async function rehearse(options: RehearsalOptions): Promise<RehearsalResult> {
  const { table, image, flash, ms } = options;
  const board = new VirtualBoard({ chip: table.chip, flash });
  const stage: BoardEdge[] = [];
  const conflicts = new Conflicts(table);
  const wires = new LampWires(table, (lamp, lit, cycles) => {
    stage.push({ lamp, lit, cycles });
    conflicts.lamp(lamp, lit, cycles);
  });
  board.onPin = (pin, level, cycles) => wires.pin(pin, level, cycles);
  board.onChainBit = (bit, level, cycles) => wires.chainBit(bit, level, cycles);
  board.connectChain(table.chain);
  board.power(true);

  const line = new DirectLine(board);
  const session = new BoardSession(line, { clock: line });
  const greeting = await line.until(session.greet());
  if (!greeting.ok) return greeting;
  // The millisecond in which the table starts is not known to the host: the first edge tells it.
  const started = await line.until(upload(session, image));
  if (!started.ok) return started;
  await session.close();

  const comparison = new Comparison(table, options.onEdge ?? (() => {}));
  for (let done = 0; done < ms; ) {
    const step = Math.min(CHUNK_MS, ms - done);
    board.run(step * CYCLES_PER_MS);
    done += step;
    comparison.take(stage.splice(0));
    options.onProgress?.(done);
  }
  comparison.finish(board.cycles);
  conflicts.finish(board.cycles);
  return { ok: true, rehearsal: { ...comparison.result(), conflicts: conflicts.seen } };
}
