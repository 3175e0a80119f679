/**
 * One powered chip in avr8js: CPU, flash and the peripherals that the firmware
 * uses. A reset or a power cycle makes a new one; registers and RAM are handed on, the EEPROM outlives it.
 */
import { AVRIOPort, AVRTimer, CPU } from 'avr8js';
import type { Level } from './chain.ts';
import type { ChipProfile } from './chips.ts';
import { type Analogue, addConverter } from './converter.ts';
import type { Eeprom } from './eeprom.ts';
import { addEepromPort } from './eeprom-port.ts';
import { Usart } from './usart.ts';
import { BootVectors } from './vectors.ts';
import { addWatchdog } from './watchdog.ts';

/** Bits of MCUSR, the register that tells why the chip started. */
export const CAUSE_BIT = { power: 0x01, reset: 0x02, brownout: 0x04, watchdog: 0x08 } as const;
export type StartCause = keyof typeof CAUSE_BIT;

export interface MachineParts {
  readonly profile: ChipProfile;
  readonly flash: Uint8Array;
  /** Byte address at which the chip starts: 0, or the boot section. */
  readonly bootAt: number;
  readonly eeprom: Eeprom;
  readonly baud: number;
  readonly analogue: Analogue;
  /** What a pin that is an input reads, where something other than a plain level decides; null: the plain level. */
  readonly inputLevel: (pin: number) => 0 | 1 | null;
  readonly sent: (byte: number) => void;
  readonly pinChanged: (pin: number, level: Level) => void;
  /** The hardware watchdog restarted the chip. */
  readonly watchdogReset: () => void;
}

export class Machine {
  readonly cpu: CPU;
  readonly timer0: AVRTimer;
  readonly usart: Usart;
  readonly vectors: BootVectors;
  readonly levels: Level[];
  /** In a SLEEP instruction, until the next interrupt. */
  asleep = false;
  /** Set from within to end the current run at once. */
  stop = false;
  private readonly ports = new Map<string, AVRIOPort>();
  private readonly profile: ChipProfile;
  /** By port, the pin of each of its bits. */
  private readonly pinsOf = new Map<string, (number | undefined)[]>();

  constructor(parts: MachineParts, cycles: number, memory: Uint8Array, cause: StartCause) {
    const { profile } = parts;
    this.profile = profile;
    const cpu = new CPU(new Uint16Array(parts.flash.slice().buffer), profile.ramBytes);
    this.cpu = cpu;
    cpu.cycles = cycles;
    // A reset leaves the 32 working registers and RAM as they are.
    cpu.data.set(memory.subarray(0, 32));
    cpu.data.set(memory.subarray(profile.ramStart), profile.ramStart);
    cpu.pc = parts.bootAt / 2;
    cpu.data[profile.watchdog.MCUSR] = CAUSE_BIT[cause];
    this.levels = profile.pins.map(() => 'z');
    for (const [letter, config] of Object.entries(profile.ports)) {
      const port = new AVRIOPort(cpu, config);
      const pins = Array.from({ length: 8 }, (_, bit) => profile.pins.indexOf(letter + bit));
      this.pinsOf.set(
        letter,
        pins.map((pin) => (pin < 0 ? undefined : pin)),
      );
      port.addListener(() => this.portChanged(letter, port, parts.pinChanged));
      this.ports.set(letter, port);
      cpu.readHooks[config.PIN] = () => this.readPort(letter, config.PIN, parts.inputLevel);
    }
    this.timer0 = new AVRTimer(cpu, profile.timer0);
    // The firmware leaves it alone; a boot loader may not have.
    new AVRTimer(cpu, profile.timer1);
    this.usart = new Usart(cpu, profile.usart, parts.baud, parts.sent);
    addEepromPort(cpu, parts.eeprom, profile.eeprom);
    addConverter(cpu, profile.adc, parts.analogue);
    addWatchdog(cpu, profile.watchdog, cause === 'watchdog');
    this.vectors = new BootVectors(cpu, parts.bootAt);
    // The emulator's watchdog calls this; its own reset would leave the peripherals as they were.
    cpu.reset = parts.watchdogReset;
  }

  /** An input with its pull-up on. */
  pulledUp(pin: number): boolean {
    const { port, index } = this.portOf(pin);
    return !!port && this.levels[pin] === 'z' && (((this.cpu.data[port.portConfig.PORT] ?? 0) >> index) & 1) === 1;
  }

  /** Level at a pin from outside; null: nothing connected, so the pull-up decides. */
  drive(pin: number, outside: 0 | 1 | null): void {
    const { port, index } = this.portOf(pin);
    if (!port) return;
    port.setPin(index, outside === null ? this.pulledUp(pin) : outside === 1);
  }

  private portOf(pin: number): { port: AVRIOPort | undefined; index: number } {
    const bit = this.profile.pins[pin] ?? '';
    return { port: this.ports.get(bit.charAt(0)), index: Number(bit.slice(1)) };
  }

  private readPort(letter: string, address: number, levelOf: MachineParts['inputLevel']): number {
    let value = this.cpu.data[address] ?? 0;
    const pins = this.pinsOf.get(letter) ?? [];
    for (let index = 0; index < 8; index++) {
      const pin = pins[index];
      if (pin === undefined || this.levels[pin] !== 'z') continue;
      const level = levelOf(pin);
      if (level !== null) value = (value & ~(1 << index)) | (level << index);
    }
    return value;
  }

  private portChanged(letter: string, port: AVRIOPort, changed: (pin: number, level: Level) => void): void {
    const direction = this.cpu.data[port.portConfig.DDR] ?? 0;
    const value = this.cpu.data[port.portConfig.PORT] ?? 0;
    const pins = this.pinsOf.get(letter) ?? [];
    for (let index = 0; index < 8; index++) {
      const pin = pins[index];
      if (pin === undefined) continue;
      const level: Level = (direction >> index) & 1 ? (((value >> index) & 1) as 0 | 1) : 'z';
      const before = this.levels[pin];
      this.levels[pin] = level;
      // Also when it stays an input: its pull-up may have been switched.
      if (level !== before || level === 'z') changed(pin, level);
    }
  }
}
