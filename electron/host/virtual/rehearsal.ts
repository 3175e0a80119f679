/**
 * Rehearses a table: sends it over the serial protocol to the shipped firmware
 * in the emulator, lets it run, and compares every lamp edge with the ideal
 * schedule of the reference interpreter.
 */
import { type Edge, tracing } from '../../../shared/interpreter/trace.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import type { HostError } from '../result.ts';
import { BoardSession } from '../session.ts';
import { type UploadError, upload } from '../upload.ts';
import { VirtualBoard } from './board.ts';
import { CPU_HZ } from './chips.ts';
import { Conflicts } from './conflicts.ts';
import { DirectLine } from './direct.ts';
import { LampWires } from './lamps.ts';

const CYCLES_PER_MS = CPU_HZ / 1000;
/** Board time between two comparisons, ms; bounds what waits in memory. */
const CHUNK_MS = 10_000;

/** A lamp edge of the emulated board, `cycles` of 16 MHz after the table started. */
export interface BoardEdge {
  readonly cycles: number;
  readonly lamp: number;
  readonly lit: boolean;
}

export interface Rehearsal {
  /** Cycles of 16 MHz from the start of the table to the end of the run. */
  readonly cycles: number;
  readonly edges: number;
  /** Edges that the ideal schedule has in another order, with another lamp, or not at all. */
  readonly wrong: number;
  /** The first of them, in words. */
  readonly firstWrong: string | null;
  /** Greatest distance of an edge from its ideal moment, microseconds. */
  readonly worst: number;
  /** Distance at the last edge less distance at the first after the opening ones, microseconds. */
  readonly drift: number;
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
    // Edges of one tick may lie on both sides of this moment: the last millisecond waits.
    comparison.take(stage.splice(0, countBefore(stage, board.cycles - CYCLES_PER_MS)));
    options.onProgress?.(done);
  }
  comparison.finish(stage, board.cycles);
  conflicts.finish(board.cycles);
  return { ok: true, rehearsal: { ...comparison.result(), conflicts: conflicts.seen } };
}

function countBefore(edges: readonly BoardEdge[], cycles: number): number {
  const later = edges.findIndex((edge) => edge.cycles >= cycles);
  return later < 0 ? edges.length : later;
}

/** Edges of the board against those of the reference interpreter. */
class Comparison {
  private readonly ideal: Edge[] = [];
  private readonly reference;
  private readonly onEdge: (edge: BoardEdge) => void;
  private origin: number | null = null;
  private edges = 0;
  private wrong = 0;
  private firstWrong: string | null = null;
  private worst = 0;
  private endedAt = 0;
  private openingMs: number | null = null;
  private first: number | null = null;
  private last = 0;

  constructor(table: BoardTable, onEdge: (edge: BoardEdge) => void) {
    this.onEdge = onEdge;
    this.reference = tracing(table, (edge) => this.ideal.push(edge));
    this.reference.start();
    for (const [input, { pullUp, activeLow }] of table.inputs.entries()) {
      this.reference.setRaw(input, pullUp !== activeLow);
    }
  }

  take(edges: readonly BoardEdge[]): void {
    const [opening] = edges;
    if (!opening) return;
    if (this.origin === null) {
      while (this.ideal.length === 0 && this.reference.ran < CHUNK_MS) this.reference.run(1);
      this.origin = opening.cycles - (this.ideal[0]?.ms ?? 0) * CYCLES_PER_MS;
    }
    this.runReference(edges.at(-1)?.cycles ?? 0);
    for (const edge of edges) this.onEdge({ ...edge, cycles: edge.cycles - this.origin });
    // Lamps that change together do so in any order of their pins.
    const ideal = this.ideal.splice(0, edges.length);
    const inOrder = [...edges].sort((a, b) => this.msOf(a) - this.msOf(b) || a.lamp - b.lamp);
    ideal.sort((a, b) => a.ms - b.ms || a.lamp - b.lamp);
    for (const [index, edge] of inOrder.entries()) this.compare(edge, ideal[index], this.origin);
  }

  /** The rest, and what the ideal schedule had before the end but the board did not. */
  finish(edges: readonly BoardEdge[], cycles: number): void {
    this.take(edges);
    this.endedAt = cycles;
    if (this.origin === null) this.reference.run(CHUNK_MS);
    else this.runReference(cycles - CYCLES_PER_MS);
    for (const edge of this.ideal.splice(0)) this.isWrong(`nothing, wanted ${words(edge)}`);
  }

  result(): Omit<Rehearsal, 'conflicts'> {
    const { edges, wrong, firstWrong, worst } = this;
    return {
      cycles: this.endedAt - (this.origin ?? this.endedAt),
      edges,
      wrong,
      firstWrong,
      worst,
      drift: this.last - (this.first ?? this.last),
    };
  }

  private msOf(edge: BoardEdge): number {
    return Math.round((edge.cycles - (this.origin ?? 0)) / CYCLES_PER_MS);
  }

  private compare(edge: BoardEdge, ideal: Edge | undefined, origin: number): void {
    const cycles = edge.cycles - origin;
    this.edges += 1;
    if (!ideal || ideal.lamp !== edge.lamp || ideal.lit !== edge.lit) {
      const had = words({ ...edge, ms: cycles / CYCLES_PER_MS });
      this.isWrong(`${had}, wanted ${ideal ? words(ideal) : 'nothing'}`);
      return;
    }
    const distance = (cycles - ideal.ms * CYCLES_PER_MS) / (CPU_HZ / 1e6);
    // The opening tick does the work of a start and shows its lamps a little later than any other.
    if (this.openingMs === null) this.openingMs = ideal.ms;
    if (this.first === null && ideal.ms > this.openingMs) this.first = distance;
    this.last = distance;
    this.worst = Math.max(this.worst, Math.abs(distance));
  }

  private runReference(cycles: number): void {
    const ms = Math.ceil((cycles - (this.origin ?? 0)) / CYCLES_PER_MS) - this.reference.ran;
    if (ms > 0) this.reference.run(ms);
  }

  private isWrong(what: string): void {
    this.wrong += 1;
    this.firstWrong ??= what;
  }
}

function words({ lamp, lit, ms }: Edge): string {
  return `lamp ${lamp} ${lit ? 'lit' : 'dark'} at ${ms} ms`;
}
