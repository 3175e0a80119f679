/**
 * One powered chip in avr8js: CPU, flash and the peripherals that the firmware
 * uses. A reset or a power cycle makes a new one; only RAM and EEPROM outlive it.
 */
import { AVRADC, AVRClock, AVREEPROM, AVRIOPort, AVRTimer, AVRWatchdog, CPU } from 'avr8js';
import type { Level } from './chain.ts';
import { type ChipProfile, CPU_HZ } from './chips.ts';
import type { Eeprom } from './eeprom.ts';
import { Usart } from './usart.ts';

/** Bits of MCUSR, the register that tells why the chip started. */
export const CAUSE_BIT = { power: 0x01, reset: 0x02, brownout: 0x04, watchdog: 0x08 } as const;
export type StartCause = keyof typeof CAUSE_BIT;

export interface MachineParts {
  readonly profile: ChipProfile;
  readonly flash: Uint8Array;
  readonly eeprom: Eeprom;
  readonly baud: number;
  readonly supplyVolts: number;
  readonly sent: (byte: number) => void;
  readonly pinChanged: (pin: number, level: Level) => void;
  /** The hardware watchdog restarted the chip. */
  readonly watchdogReset: () => void;
}

export class Machine {
  readonly cpu: CPU;
  readonly timer0: AVRTimer;
  readonly usart: Usart;
  readonly levels: Level[];
  /** In a SLEEP instruction, until the next interrupt. */
  asleep = false;
  /** Set from within to end the current run at once. */
  stop = false;
  private readonly ports = new Map<string, AVRIOPort>();
  private readonly profile: ChipProfile;
  private readonly pinOfBit = new Map<string, number>();

  constructor(parts: MachineParts, cycles: number, ram: Uint8Array, cause: StartCause) {
    const { profile } = parts;
    this.profile = profile;
    const cpu = new CPU(new Uint16Array(parts.flash.slice().buffer), profile.ramBytes);
    this.cpu = cpu;
    cpu.cycles = cycles;
    cpu.data.set(ram, profile.ramStart);
    cpu.data[profile.watchdog.MCUSR] = CAUSE_BIT[cause];
    this.levels = profile.pins.map(() => 'z');
    for (const [pin, bit] of profile.pins.entries()) this.pinOfBit.set(bit, pin);
    for (const [letter, config] of Object.entries(profile.ports)) {
      const port = new AVRIOPort(cpu, config);
      port.addListener(() => this.portChanged(letter, port, parts.pinChanged));
      this.ports.set(letter, port);
    }
    this.timer0 = new AVRTimer(cpu, profile.timer0);
    this.usart = new Usart(cpu, profile.usart, parts.baud, parts.sent);
    new AVREEPROM(cpu, parts.eeprom, profile.eeprom);
    const adc = new AVRADC(cpu, profile.adc);
    adc.avcc = parts.supplyVolts;
    new AVRWatchdog(cpu, profile.watchdog, new AVRClock(cpu, CPU_HZ));
    // The emulator's watchdog calls this; its own reset would leave the peripherals as they were.
    cpu.reset = parts.watchdogReset;
  }

  ram(): Uint8Array {
    return this.cpu.data.slice(this.profile.ramStart);
  }

  /** Level at a pin from outside; null: nothing connected, so the pull-up decides. */
  drive(pin: number, outside: 0 | 1 | null): void {
    const { port, index } = this.portOf(pin);
    if (!port) return;
    const pulledUp = this.levels[pin] === 'z' && ((this.cpu.data[port.portConfig.PORT] ?? 0) >> index) & 1;
    port.setPin(index, outside === null ? pulledUp === 1 : outside === 1);
  }

  private portOf(pin: number): { port: AVRIOPort | undefined; index: number } {
    const bit = this.profile.pins[pin] ?? '';
    return { port: this.ports.get(bit.charAt(0)), index: Number(bit.slice(1)) };
  }

  private portChanged(letter: string, port: AVRIOPort, changed: (pin: number, level: Level) => void): void {
    const direction = this.cpu.data[port.portConfig.DDR] ?? 0;
    const value = this.cpu.data[port.portConfig.PORT] ?? 0;
    for (let index = 0; index < 8; index++) {
      const pin = this.pinOfBit.get(letter + index);
      if (pin === undefined) continue;
      const level: Level = (direction >> index) & 1 ? (((value >> index) & 1) as 0 | 1) : 'z';
      const before = this.levels[pin];
      this.levels[pin] = level;
      // Also when it stays an input: its pull-up may have been switched.
      if (level !== before || level === 'z') changed(pin, level);
    }
  }
}
