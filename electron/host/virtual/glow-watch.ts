/** Looks at the lamps of a running board as an eye would: not too often, and not in the blink of a measurement. */
import type { Glow } from '../../../shared/electrics/model.ts';
import type { VirtualBoard } from './board.ts';
import { CPU_HZ } from './chips.ts';
import type { Circuit } from './circuit.ts';

/** Between two looks, ms of wall time. */
const EVERY_MS = 33;
/** A state younger than this, in cycles, may be the middle of a probe; it is looked at a little later. */
const STEADY_CYCLES = CPU_HZ / 1000;
/** After so many looks in vain it is taken as it is: on a hurried board something always changes. */
const PATIENCE = 8;

export class GlowWatch {
  private readonly board: VirtualBoard;
  private readonly circuit: Circuit;
  private lookedAt = Number.NEGATIVE_INFINITY;
  private seen = -1;
  private waited = 0;
  private told = '';

  constructor(board: VirtualBoard, circuit: Circuit) {
    this.board = board;
    this.circuit = circuit;
  }

  /** `now`: wall time, ms. What the lamps show by load and head, when it is news; else null. */
  look(now: number): Glow[][] | null {
    const { board, circuit } = this;
    if (now - this.lookedAt < EVERY_MS) return null;
    const state = board.powered ? circuit.version : -2;
    if (state === this.seen) return null;
    if (board.powered && board.cycles - circuit.changedAt < STEADY_CYCLES && this.waited < PATIENCE) {
      this.waited += 1;
      return null;
    }
    this.waited = 0;
    this.lookedAt = now;
    this.seen = state;
    const glow = board.powered ? circuit.glow() : dark(circuit);
    const text = JSON.stringify(glow);
    if (text === this.told) return null;
    this.told = text;
    return glow;
  }
}

/** Without power. What is fed from elsewhere has lost its way to ground with the board. */
function dark(circuit: Circuit): Glow[][] {
  return circuit.network.loads.map(({ heads }) => heads.map(() => 'dark'));
}
