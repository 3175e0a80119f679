/** The program on a board, once its boot loader has let it run. */
import type { Clock } from '../../../electron/host/clock.ts';
import { VirtualBoard } from '../../../electron/host/virtual/board.ts';
import type { Level } from '../../../electron/host/virtual/chain.ts';
import { CPU_HZ } from '../../../electron/host/virtual/chips.ts';
import type { StartCause } from '../../../electron/host/virtual/machine.ts';
import type { Chip } from '../../../shared/table/format.ts';

const CYCLES_PER_MS = CPU_HZ / 1000;
const SLICE_MS = 2;
/** A board that is further behind its clock does not catch up: the computer was busy. */
const BEHIND_MS = 200;
// Registers (data sheet 8271, register summary; the same on both chips) and instructions (instruction set manual).
const MCUSR = 0x54;
const SREG = 0x5f;
const INTERRUPTS_ON = 0x80;
const WDTCSR = 0x60;
const WATCHDOG_ON = 0x48;
const WDR = 0x95a8;
const RJMP_HERE = 0xcfff;
const RJMP_BACK = 0xcffe;

export interface ProgramParts {
  readonly chip: Chip;
  readonly flash: Uint8Array;
  readonly eeprom: Uint8Array;
  readonly clock: Clock;
  /** Bits of MCUSR as the loader leaves them; null: as the chip sets them. */
  readonly causeBits: number | null;
  readonly cause: StartCause;
  readonly said: (bytes: Uint8Array) => void;
  readonly pinChanged: (pin: number, level: Level) => void;
  /** The watchdog has reset the chip: the boot loader is next. */
  readonly watchdog: () => void;
}

/** The real bytes of the flash in the emulated chip, at the pace of the clock. */
export class RunningProgram {
  readonly board: VirtualBoard;
  private readonly parts: ProgramParts;
  private readonly begunAt: number;
  private lagMs = 0;
  private heard: number[] = [];
  private stopped = false;
  private cancel: () => void = () => {};

  constructor(parts: ProgramParts) {
    this.parts = parts;
    this.board = new Restartable(parts, () => {
      this.stopped = true;
    });
    this.board.onByte = (byte) => this.heard.push(byte);
    this.board.onPin = (pin, level) => parts.pinChanged(pin, level);
    this.board.power(true);
    if (parts.cause !== 'power') (this.board as Restartable).startFor(parts.cause);
    if (parts.causeBits !== null) this.board.poke(MCUSR, parts.causeBits);
    this.begunAt = parts.clock.now();
    this.later();
  }

  write(bytes: Uint8Array): void {
    this.board.write(bytes);
  }

  stop(): void {
    this.cancel();
    this.stopped = true;
    this.board.power(false);
  }

  private later(): void {
    this.cancel = this.parts.clock.setTimer(SLICE_MS, () => this.slice());
  }

  private slice(): void {
    let due = this.parts.clock.now() - this.begunAt - this.lagMs;
    const behind = due - this.board.milliseconds - BEHIND_MS;
    if (behind > 0) {
      this.lagMs += behind;
      due -= behind;
    }
    while (!this.stopped && this.board.milliseconds < due) this.board.run(CYCLES_PER_MS / 4);
    const said = Uint8Array.from(this.heard);
    this.heard = [];
    if (said.length > 0) this.parts.said(said);
    if (this.stopped) this.parts.watchdog();
    else if (!this.isParked()) this.later();
  }

  /** Goes round in one place for ever, with interrupts off and no watchdog to end it: then there is nothing to run. */
  private isParked(): boolean {
    const at = this.board.programCounter;
    const word = (address: number): number =>
      (this.parts.flash[address] ?? 0xff) + 256 * (this.parts.flash[address + 1] ?? 0xff);
    if ((this.board.peek(SREG) & INTERRUPTS_ON) !== 0) return false;
    if (word(at) === RJMP_HERE) return (this.board.peek(WDTCSR) & WATCHDOG_ON) === 0;
    const start = word(at) === WDR ? at : at - 2;
    return word(start) === WDR && word(start + 2) === RJMP_BACK;
  }
}

/** A chip whose watchdog hands over to the boot loader instead of starting the program again. */
class Restartable extends VirtualBoard {
  private readonly ended: () => void;

  constructor(parts: ProgramParts, ended: () => void) {
    super({ chip: parts.chip, flash: parts.flash, eeprom: parts.eeprom });
    this.ended = ended;
  }

  startFor(cause: StartCause): void {
    super.reset(cause);
  }

  override reset(): void {
    this.power(false);
    this.ended();
  }
}
