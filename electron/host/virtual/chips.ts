/**
 * The two chips as the emulator needs them: memory sizes, interrupt vectors as
 * word addresses (twice the vector number), registers, and which port bit each
 * pin number means (firmware/PROTOCOL.md, chapter 5).
 */
import {
  type ADCConfig,
  ADCMuxInputType,
  ADCReference,
  type AVREEPROMConfig,
  type AVRPortConfig,
  type AVRTimerConfig,
  adcConfig,
  timer0Config,
  timer1Config,
  type WatchdogConfig,
} from 'avr8js';
import type { Chip } from '../../../shared/table/format.ts';
import { BANDGAP, channels } from './analogue-channels.ts';

export const CPU_HZ = 16_000_000;

export interface UsartRegisters {
  readonly rxVector: number;
  readonly udreVector: number;
  readonly txVector: number;
  readonly UCSRA: number;
  readonly UCSRB: number;
  readonly UCSRC: number;
  readonly UBRRL: number;
  readonly UBRRH: number;
  readonly UDR: number;
}

export interface ChipProfile {
  readonly chip: Chip;
  readonly flashBytes: number;
  /** Bytes above the first 256 addresses, as the emulator counts. */
  readonly ramBytes: number;
  readonly ramStart: number;
  readonly eepromBytes: number;
  readonly ports: Readonly<Record<string, AVRPortConfig>>;
  /** Port bit of each pin number, such as `D4`. */
  readonly pins: readonly string[];
  /** Pin of channel 0 of the analogue converter; the further channels follow it. */
  readonly firstAnalogue: number;
  readonly timer0: AVRTimerConfig;
  readonly timer1: AVRTimerConfig;
  readonly usart: UsartRegisters;
  readonly eeprom: AVREEPROMConfig;
  readonly watchdog: WatchdogConfig;
  readonly adc: ADCConfig;
}

const plainPort = (pin: number): AVRPortConfig => ({ PIN: pin, DDR: pin + 1, PORT: pin + 2, externalInterrupts: [] });

const usartRegisters = { UCSRA: 0xc0, UCSRB: 0xc1, UCSRC: 0xc2, UBRRL: 0xc4, UBRRH: 0xc5, UDR: 0xc6 };

// Erase and write of one byte together take 3.4 ms (data sheet 8271, EEPROM mode bits; from memory;
// 26,368 RC cycles = 3.3 ms typical in 8025 table 5-2). 27,200 cycles of 16 MHz are 1.7 ms each.
const eepromTimes = { EECR: 0x3f, EEDR: 0x40, EEARL: 0x41, EEARH: 0x42, eraseCycles: 27_200, writeCycles: 27_200 };

function bits(text: string): string[] {
  return text.split(' ');
}

const atmega328p: ChipProfile = {
  chip: 'atmega328p',
  flashBytes: 0x8000,
  ramBytes: 0x800,
  ramStart: 0x100,
  eepromBytes: 1024,
  ports: { B: plainPort(0x23), C: plainPort(0x26), D: plainPort(0x29) },
  pins: bits('D0 D1 D2 D3 D4 D5 D6 D7 B0 B1 B2 B3 B4 B5 C0 C1 C2 C3 C4 C5'),
  firstAnalogue: 14,
  timer0: timer0Config,
  timer1: { ...timer1Config, compPortA: 0, compPortB: 0, externalClockPort: 0 },
  usart: { ...usartRegisters, rxVector: 0x24, udreVector: 0x26, txVector: 0x28 },
  eeprom: { ...eepromTimes, eepromReadyInterrupt: 0x2c },
  watchdog: { watchdogInterrupt: 0x0c, MCUSR: 0x54, WDTCSR: 0x60 },
  adc: adcConfig,
};

// Vectors: avr-libc header iomxx0_1.h (timer 0 compare A 21, B 22, overflow 23, timer 1 16 to 20, USART0 25 to 27,
// ADC 29, EEPROM 30, watchdog 12). Ports H to L lie in the extended register space.
const atmega2560: ChipProfile = {
  chip: 'atmega2560',
  flashBytes: 0x40000,
  ramBytes: 0x2100,
  ramStart: 0x200,
  eepromBytes: 4096,
  ports: {
    A: plainPort(0x20),
    B: plainPort(0x23),
    C: plainPort(0x26),
    D: plainPort(0x29),
    E: plainPort(0x2c),
    F: plainPort(0x2f),
    G: plainPort(0x32),
    H: plainPort(0x100),
    J: plainPort(0x103),
    K: plainPort(0x106),
    L: plainPort(0x109),
  },
  pins: bits(
    'E0 E1 E4 E5 G5 E3 H3 H4 H5 H6 B4 B5 B6 B7 J1 J0 H1 H0 D3 D2 D1 D0 ' +
      'A0 A1 A2 A3 A4 A5 A6 A7 C7 C6 C5 C4 C3 C2 C1 C0 D7 G2 G1 G0 ' +
      'L7 L6 L5 L4 L3 L2 L1 L0 B3 B2 B1 B0 F0 F1 F2 F3 F4 F5 F6 F7 K0 K1 K2 K3 K4 K5 K6 K7',
  ),
  firstAnalogue: 54,
  // The firmware uses no compare pin of a timer, so they stay unconnected here.
  timer0: {
    ...timer0Config,
    compAInterrupt: 0x2a,
    compBInterrupt: 0x2c,
    ovfInterrupt: 0x2e,
    compPortA: 0,
    compPortB: 0,
    externalClockPort: 0,
  },
  timer1: {
    ...timer1Config,
    captureInterrupt: 0x20,
    compAInterrupt: 0x22,
    compBInterrupt: 0x24,
    compCInterrupt: 0x26,
    ovfInterrupt: 0x28,
    compPortA: 0,
    compPortB: 0,
    externalClockPort: 0,
  },
  usart: { ...usartRegisters, rxVector: 0x32, udreVector: 0x34, txVector: 0x36 },
  eeprom: { ...eepromTimes, eepromReadyInterrupt: 0x3c },
  watchdog: { watchdogInterrupt: 0x18, MCUSR: 0x54, WDTCSR: 0x60 },
  adc: {
    ...adcConfig,
    adcInterrupt: 0x3a,
    numChannels: 16,
    muxInputMask: 0x3f,
    muxChannels: { ...channels(16, 32), 30: BANDGAP, 31: { type: ADCMuxInputType.Constant, voltage: 0 } },
    adcReferences: [ADCReference.AREF, ADCReference.AVCC, ADCReference.Internal1V1, ADCReference.Internal2V56],
  },
};

export const CHIPS: Readonly<Record<Chip, ChipProfile>> = { atmega328p, atmega2560 };
