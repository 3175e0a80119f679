/** Edges of a board's outputs out of pin edges, shift registers included: one decoder for the traces of both emulators. */
import { type Level, ShiftChain } from '../../electron/host/virtual/chain.ts';
import { CHIPS } from '../../electron/host/virtual/chips.ts';
import { CHAIN_BASE } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';

export interface PinEdge {
  readonly cycles: number;
  /** Pin number of the board. */
  readonly pin: number;
  readonly level: Level;
}

export interface OutputEdge {
  readonly cycles: number;
  /** A pin, or from 128 on a bit of the chain, as in a table. */
  readonly output: number;
  readonly level: Level;
}

/**
 * Pins and bits of the chain, in order. The wires of the chain itself are left out: the board shifts the same bits
 * again now and then, between two ticks that are of no consequence.
 */
export function outputEdges(table: BoardTable, edges: readonly PinEdge[]): OutputEdge[] {
  const found: OutputEdge[] = [];
  let now = 0;
  const { chain: wiring } = table;
  const wires = wiring ? [wiring.data, wiring.clock, wiring.latch] : [];
  const bit = (at: number, level: Level) => found.push({ cycles: now, output: CHAIN_BASE + at, level });
  const chain = wiring ? new ShiftChain(wiring, bit) : null;
  const levels: Level[] = CHIPS[table.chip].pins.map(() => 'z');
  for (const { cycles, pin, level } of inOrder(edges)) {
    now = cycles;
    chain?.pin(pin, levels[pin] ?? 'z', level);
    levels[pin] = level;
    if (!wires.includes(pin)) found.push({ cycles, output: pin, level });
  }
  return found;
}

/** Pins that are let go together, by a reset or a power cut, in the order of their numbers. */
function inOrder(edges: readonly PinEdge[]): PinEdge[] {
  const groups: PinEdge[][] = [];
  for (const edge of edges) {
    const last = groups.at(-1);
    const first = last?.[0];
    if (last && first?.level === 'z' && edge.level === 'z' && first.cycles === edge.cycles) last.push(edge);
    else groups.push([edge]);
  }
  return groups.flatMap((group) => group.sort((a, b) => a.pin - b.pin));
}
