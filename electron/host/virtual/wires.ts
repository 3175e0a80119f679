/** What is wired to the pins and shift registers of a virtual board: plain levels from outside, and a lamp circuit. */
import { CHAIN_BASE } from '../../../shared/table/format.ts';
import type { Level } from './chain.ts';
import type { ChipProfile } from './chips.ts';
import { Circuit, type CircuitPlan } from './circuit.ts';
import type { Analogue } from './converter.ts';

/** What the wires have to know of the board. */
export interface BoardEnd {
  readonly cycles: number;
  readonly profile: Pick<ChipProfile, 'pins' | 'firstAnalogue'>;
  pin(pin: number): Level;
  pulledUp(pin: number): boolean;
}

export class Wires implements Analogue {
  circuit: Circuit | null = null;
  /** By pin, the level of a button or the like; null: nothing. */
  readonly outside: (0 | 1 | null)[];
  private readonly board: BoardEnd;
  /** Without load. */
  private readonly supplyVolts: number;

  constructor(board: BoardEnd, supplyVolts: number) {
    this.board = board;
    this.supplyVolts = supplyVolts;
    this.outside = board.profile.pins.map(() => null);
  }

  /** `bits`: what the shift registers show. */
  connect(plan: CircuitPlan | null, bits: readonly Level[]): Circuit | null {
    const { supplyVolts } = this;
    this.circuit = plan && new Circuit({ ...plan, parts: { supplyVolts, ...plan.parts } });
    for (const pin of this.outside.keys()) this.pinChanged(pin, this.board.pin(pin));
    for (const [bit, level] of bits.entries()) this.bitChanged(bit, level);
    return this.circuit;
  }

  pinChanged(pin: number, level: Level): void {
    if (!this.circuit) return;
    const drive = level === 'z' ? (this.board.pulledUp(pin) ? 'pulled' : 'free') : level;
    this.circuit.drive(pin, drive, this.board.cycles);
  }

  bitChanged(bit: number, level: Level): void {
    this.circuit?.drive(CHAIN_BASE + bit, level === 'z' ? 'free' : level, this.board.cycles);
  }

  /** What an input reads where the circuit decides; null: the plain level. */
  inputLevel(pin: number): 0 | 1 | null {
    const { circuit } = this;
    return circuit?.has(pin) && this.outside[pin] === null ? circuit.level(pin, this.board.cycles) : null;
  }

  /** Volts at a pin now. */
  volts(pin: number): number {
    const { board, circuit } = this;
    const outside = this.outside[pin] ?? null;
    if (circuit?.has(pin) && outside === null) return circuit.volts(pin, board.cycles);
    const level = board.pin(pin);
    const isHigh = level === 'z' ? (outside === null ? board.pulledUp(pin) : outside === 1) : level === 1;
    return isHigh ? this.supply() : 0;
  }

  channel(channel: number): number {
    return this.volts(this.board.profile.firstAnalogue + channel);
  }

  supply(): number {
    return this.circuit?.supply() ?? this.supplyVolts;
  }

  error(): number {
    return this.circuit?.adcError ?? 0;
  }
}
