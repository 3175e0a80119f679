/**
 * The EEPROM of the virtual board. Erasing a byte (to FF) and writing it
 * (clearing bits) are two operations; power may be cut after any of them, or
 * in the middle of one, when only some of its bits have changed.
 */
import type { EEPROMBackend } from 'avr8js';

export interface PowerCut {
  /** The power fails during this operation, counted from 1 from now on. */
  readonly operation: number;
  /** True: the operation changes half of its bits. False: it is done, and the last one. */
  readonly torn: boolean;
}

/** Bits that a torn operation does not reach. */
const TORN_BITS = 0x5a;

export class Eeprom implements EEPROMBackend {
  readonly memory: Uint8Array;
  /** Operations since the board was made. */
  operations = 0;
  /** Cycle at which the write under way is done; it goes on through resets. */
  busyUntil = 0;
  private cut: { readonly at: number; readonly torn: boolean } | null = null;
  private dead = false;
  private readonly failPower: () => void;
  private readonly changed: () => void;

  /** `contents` is copied; what is missing reads FF. */
  constructor(size: number, contents: Uint8Array | null, failPower: () => void, changed: () => void) {
    this.memory = new Uint8Array(size).fill(0xff);
    if (contents) this.memory.set(contents.subarray(0, size));
    this.failPower = failPower;
    this.changed = changed;
  }

  cutPower(cut: PowerCut | null): void {
    this.cut = cut ? { at: this.operations + cut.operation, torn: cut.torn } : null;
  }

  /** After a cut nothing is written until the power is back. */
  revive(): void {
    this.dead = false;
    this.busyUntil = 0;
  }

  readMemory(address: number): number {
    return this.memory[address % this.memory.length] ?? 0xff;
  }

  eraseMemory(address: number): void {
    this.operate(address, (old, missed) => old | (0xff & ~missed));
  }

  writeMemory(address: number, value: number): void {
    this.operate(address, (old, missed) => old & (value | missed));
  }

  private operate(address: number, change: (old: number, missed: number) => number): void {
    if (this.dead) return;
    this.operations += 1;
    const last = this.cut !== null && this.operations >= this.cut.at;
    const place = address % this.memory.length;
    const old = this.memory[place] ?? 0xff;
    this.memory[place] = change(old, last && this.cut?.torn ? TORN_BITS : 0);
    this.changed();
    if (!last) return;
    this.cut = null;
    this.dead = true;
    this.failPower();
  }
}
