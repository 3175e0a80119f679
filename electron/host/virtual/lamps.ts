/** Lamps wired to the pins and shift registers of a virtual board, as a table says. */
import { CHAIN_BASE } from '../../../shared/table/format.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import type { Level } from './chain.ts';

export class LampWires {
  /** For each lamp of the table whether it is lit. */
  readonly lit: boolean[];
  private readonly lampOf = new Map<number, { readonly lamp: number; readonly on: 0 | 1 }>();
  private readonly changed: (lamp: number, lit: boolean, cycles: number) => void;

  constructor(table: Pick<BoardTable, 'lamps'>, changed: (lamp: number, lit: boolean, cycles: number) => void) {
    this.changed = changed;
    this.lit = table.lamps.map(() => false);
    for (const [lamp, { output, activeLow }] of table.lamps.entries()) {
      this.lampOf.set(output, { lamp, on: activeLow ? 0 : 1 });
    }
  }

  pin(pin: number, level: Level, cycles: number): void {
    this.output(pin, level, cycles);
  }

  chainBit(bit: number, level: Level, cycles: number): void {
    this.output(CHAIN_BASE + bit, level, cycles);
  }

  private output(output: number, level: Level, cycles: number): void {
    const wire = this.lampOf.get(output);
    if (!wire) return;
    const lit = level === wire.on;
    if (this.lit[wire.lamp] === lit) return;
    this.lit[wire.lamp] = lit;
    this.changed(wire.lamp, lit, cycles);
  }
}
