/**
 * A row of 74HC595 shift registers on four pins. Bit 0 is output QA of the chip
 * nearest to the board; the bit shifted in first ends farthest away.
 */
import type { Chain } from '../../../shared/table/model.ts';

/** Level of a pin: driven low or high, or not driven. */
export type Level = 0 | 1 | 'z';

export class ShiftChain {
  readonly wiring: Chain;
  /** What the output pins of the chips show; `z` while output enable is released. */
  readonly outputs: Level[];
  private readonly register: (0 | 1)[];
  private latched: (0 | 1)[];
  private data: Level = 'z';
  private enabled: boolean;
  private readonly changed: (bit: number, level: Level) => void;

  /** The chips power up with random bits; here every other one is set. */
  constructor(wiring: Chain, changed: (bit: number, level: Level) => void) {
    this.wiring = wiring;
    this.changed = changed;
    const bits = wiring.chips * 8;
    this.register = Array.from({ length: bits }, (_, bit) => (bit % 2 === 0 ? 1 : 0));
    this.latched = [...this.register];
    // A pull-up holds output enable high, so the chips are off until the board drives it low.
    this.enabled = wiring.enable === null;
    this.outputs = Array.from({ length: bits }, (_, bit) => (this.enabled ? (this.latched[bit] ?? 0) : 'z'));
  }

  /** Tells the chain that a pin of the board changed. */
  pin(pin: number, before: Level, level: Level): void {
    const { data, clock, latch, enable } = this.wiring;
    const rises = level === 1 && before !== 1;
    if (pin === clock && rises) {
      this.register.pop();
      this.register.unshift(this.data === 1 ? 1 : 0);
    }
    if (pin === latch && rises) {
      this.latched = [...this.register];
      this.show();
    }
    if (pin === data) this.data = level;
    if (pin === enable) {
      this.enabled = level === 0;
      this.show();
    }
  }

  private show(): void {
    for (const [bit, value] of this.latched.entries()) {
      const level: Level = this.enabled ? value : 'z';
      if (this.outputs[bit] === level) continue;
      this.outputs[bit] = level;
      this.changed(bit, level);
    }
  }
}
