/**
 * The virtual board: the shipped firmware image in an emulated chip, with a
 * serial line, pins, EEPROM and a power switch. Everything happens when `run`
 * is called and in no other time than the board's own; `cycles` of 16 MHz
 * count on through resets and power cuts.
 */
import { BAUD } from '../../../shared/link/vocabulary.ts';
import type { Chip } from '../../../shared/table/format.ts';
import type { Chain } from '../../../shared/table/model.ts';
import { type Level, ShiftChain } from './chain.ts';
import { CHIPS, type ChipProfile, CPU_HZ } from './chips.ts';
import type { Circuit, CircuitPlan } from './circuit.ts';
import { Eeprom, type PowerCut } from './eeprom.ts';
import { Machine, type MachineParts, type StartCause } from './machine.ts';
import { Noise } from './noise.ts';
import { runMachine } from './run.ts';
import { Wires } from './wires.ts';

export interface VirtualBoardOptions {
  readonly chip: Chip;
  /** Contents of the flash, at most the chip's size. */
  readonly flash: Uint8Array;
  /** A boot loader and the byte address of its section, where the chip then starts after every reset (BOOTRST). */
  readonly boot?: { readonly at: number; readonly code: Uint8Array };
  readonly eeprom?: Uint8Array;
  /** Supply in millivolts, 5,000 by default. */
  readonly supplyMillivolts?: number;
}

export class VirtualBoard {
  readonly profile: ChipProfile;
  readonly eeprom: Eeprom;
  /** A byte has left the board; `cycles` is the end of its stop bit. */
  onByte: (byte: number, cycles: number) => void = () => {};
  /** A pin is driven otherwise than before. */
  onPin: (pin: number, level: Level, cycles: number) => void = () => {};
  /** An output of the shift registers changed. */
  onChainBit: (bit: number, level: Level, cycles: number) => void = () => {};
  onEepromChange: () => void = () => {};
  /** How often the hardware watchdog has reset the chip; a restart by software is none. */
  watchdogResets = 0;
  private readonly parts: MachineParts;
  private machine: Machine | null = null;
  private chain: ShiftChain | null = null;
  private readonly wires: Wires;
  private offCycles = 0;
  private cutNow = false;
  private restart: StartCause | null = null;
  private memory: Uint8Array;
  private readonly noise = new Noise();
  private readonly before: Level[];

  constructor(options: VirtualBoardOptions) {
    this.profile = CHIPS[options.chip];
    this.eeprom = new Eeprom(
      this.profile.eepromBytes,
      options.eeprom ?? null,
      () => {
        this.cutNow = true;
        if (this.machine) this.machine.stop = true;
      },
      () => this.onEepromChange(),
    );
    const flash = new Uint8Array(this.profile.flashBytes).fill(0xff);
    flash.set(options.flash.subarray(0, flash.length));
    const bootAt = options.boot?.at ?? 0;
    if (options.boot) flash.set(options.boot.code.subarray(0, flash.length - bootAt), bootAt);
    this.before = this.profile.pins.map(() => 'z');
    this.memory = new Uint8Array(0);
    this.wires = new Wires(this, (options.supplyMillivolts ?? 5000) / 1000);
    this.parts = {
      profile: this.profile,
      flash,
      bootAt,
      eeprom: this.eeprom,
      baud: BAUD,
      analogue: this.wires,
      inputLevel: (pin) => this.wires.inputLevel(pin),
      sent: (byte) => this.onByte(byte, this.cycles),
      pinChanged: (pin, level) => this.pinChanged(pin, level),
      watchdogReset: () => {
        this.restart = 'watchdog';
        this.watchdogResets += 1;
        if (this.machine) this.machine.stop = true;
      },
    };
  }

  get cycles(): number {
    return this.machine?.cpu.cycles ?? this.offCycles;
  }

  /** Board time since the first cycle, milliseconds with fractions. */
  get milliseconds(): number {
    return (this.cycles / CPU_HZ) * 1000;
  }

  get powered(): boolean {
    return this.machine !== null;
  }

  /** The power switch. Switching on an already powered board does nothing. */
  power(on: boolean): void {
    if (on === this.powered) return;
    if (on) {
      this.eeprom.revive();
      this.memory = this.noise.bytes(this.profile.ramBytes + 0x100);
      this.begin('power');
    } else {
      this.offCycles = this.cycles;
      this.machine = null;
      this.allPinsReleased();
      this.chainOff();
    }
  }

  /** A pulse at the reset pin, as opening a port gives on most boards. RAM stays; an EEPROM write goes on. */
  reset(cause: StartCause = 'reset'): void {
    const { machine } = this;
    if (!machine) return;
    this.memory = machine.cpu.data;
    this.offCycles = machine.cpu.cycles;
    this.machine = null;
    this.allPinsReleased();
    this.begin(cause);
  }

  /** Lets so many cycles pass; at most one instruction more. */
  run(cycles: number): void {
    this.runUntil(this.cycles + cycles);
  }

  /** Lets board time pass until the cycle counter shows `until`. */
  runUntil(until: number): void {
    while (this.cycles < until) {
      const { machine } = this;
      if (!machine) {
        this.offCycles = until;
        return;
      }
      runMachine(machine, until);
      this.afterRun();
    }
  }

  /**
   * Runs until the instruction at a byte address of the flash is next. Throws
   * when it is not reached within `limit` cycles: a test that waits for ever
   * says nothing.
   */
  runToAddress(address: number, limit: number): void {
    const until = this.cycles + limit;
    while (this.cycles < until && this.machine) {
      if (runMachine(this.machine, until, address / 2)) return;
      this.afterRun();
    }
    throw new Error(`address 0x${address.toString(16)} not reached within ${limit} cycles`);
  }

  /** Sends bytes to the board at the rate of the line. Without power they are lost. */
  write(bytes: Uint8Array): void {
    this.machine?.usart.receive(bytes);
  }

  /** Bytes written that the board has not got yet. */
  get bytesOnTheWay(): number {
    return this.machine?.usart.waiting ?? 0;
  }

  /** Received bytes that the firmware was too slow to take. */
  get bytesLost(): number {
    return this.machine?.usart.lost ?? 0;
  }

  /** What is wired to a pin: a level, or null for nothing. */
  setInput(pin: number, level: 0 | 1 | null): void {
    this.wires.outside[pin] = level;
    this.machine?.drive(pin, level);
  }

  pin(pin: number): Level {
    return this.machine?.levels[pin] ?? 'z';
  }

  /** An input with its pull-up on. */
  pulledUp(pin: number): boolean {
    return this.machine?.pulledUp(pin) ?? false;
  }

  chainBit(bit: number): Level {
    return this.powered ? (this.chain?.outputs[bit] ?? 'z') : 'z';
  }

  /** Wires a row of shift registers to the board, or takes them away. */
  connectChain(wiring: Chain | null): void {
    this.chain = wiring ? new ShiftChain(wiring, (bit, level) => this.bitChanged(bit, level)) : null;
    if (!this.powered) return;
    for (const [bit, level] of this.chain?.outputs.entries() ?? []) this.wires.bitChanged(bit, level);
  }

  /** Wires lamps to the outputs, so that pins read what the wires do and the supply sags, or takes them away. */
  connectCircuit(plan: CircuitPlan | null): Circuit | null {
    return this.wires.connect(plan, this.powered ? (this.chain?.outputs ?? []) : []);
  }

  /** Volts at a pin now, as a meter would show. */
  pinVolts(pin: number): number {
    return this.wires.volts(pin);
  }

  /** A byte of RAM at its data address. */
  peek(address: number): number {
    return this.machine?.cpu.data[address] ?? 0;
  }

  poke(address: number, value: number): void {
    if (this.machine) this.machine.cpu.data[address] = value;
  }

  /** The instruction word at a byte address of the flash. */
  peekFlash(address: number): number {
    return this.machine?.cpu.progMem[address / 2] ?? 0xffff;
  }

  /** Overwrites an instruction word at a byte address of the flash, until the next reset. */
  pokeFlash(address: number, word: number): void {
    if (this.machine) this.machine.cpu.progMem[address / 2] = word;
  }

  /** Byte address of the instruction that is next. */
  get programCounter(): number {
    return (this.machine?.cpu.pc ?? 0) * 2;
  }

  cutPowerAt(cut: PowerCut | null): void {
    this.eeprom.cutPower(cut);
  }

  private afterRun(): void {
    if (this.cutNow) {
      this.cutNow = false;
      this.restart = null;
      this.power(false);
    } else if (this.restart) {
      const cause = this.restart;
      this.restart = null;
      this.reset(cause);
    }
  }

  private begin(cause: StartCause): void {
    this.machine = new Machine(this.parts, this.offCycles, this.memory, cause);
    for (const [pin, level] of this.wires.outside.entries()) this.machine.drive(pin, level);
  }

  private pinChanged(pin: number, level: Level): void {
    const before = this.before[pin] ?? 'z';
    const outside = this.wires.outside[pin] ?? null;
    if (level === 'z' && outside === null) this.machine?.drive(pin, null);
    this.wires.pinChanged(pin, level);
    if (before === level) return;
    this.before[pin] = level;
    this.chain?.pin(pin, before, level);
    this.onPin(pin, level, this.cycles);
  }

  private bitChanged(bit: number, level: Level): void {
    this.wires.bitChanged(bit, level);
    this.onChainBit(bit, level, this.cycles);
  }

  private allPinsReleased(): void {
    for (const pin of this.before.keys()) this.pinChanged(pin, 'z');
  }

  /** The chips lose their power with the board. */
  private chainOff(): void {
    if (!this.chain) return;
    for (const [bit, level] of this.chain.outputs.entries()) {
      if (level !== 'z') this.bitChanged(bit, 'z');
    }
    this.connectChain(this.chain.wiring);
  }
}
