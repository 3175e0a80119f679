/** What outputs, chips and supplies may carry, each with its source. All currents in mA. */
import { common, type Fact, fact } from '../../practice/fact.ts';

/** Limits of one pin of a board's chip; the same for both chips. */
export interface PinLimits {
  /** Up to here the data sheet says what voltage the pin keeps: what one should stay within. */
  readonly specified: Fact<number>;
  /** Beyond it the chip may break. */
  readonly absolute: Fact<number>;
  /** At the specified current and 5 V: least voltage of a high output, greatest of a low one, V. */
  readonly leastHigh: Fact<number>;
  readonly greatestLow: Fact<number>;
}

export const PIN_LIMITS: PinLimits = {
  specified: fact(20, 'seen', 'ATmega328P data sheet (8271) §29.2, ATmega2560 (2549) §31: test condition at 5 V'),
  absolute: fact(40, 'seen', 'ATmega328P data sheet (8271) §29.1, ATmega2560 (2549) §31: absolute maximum of a pin'),
  leastHigh: fact(4.2, 'seen', 'ATmega328P data sheet (8271) §29.2: output high at -20 mA and 5 V'),
  greatestLow: fact(0.9, 'quoted', 'ATmega328P data sheet (8025): output low at 20 mA and 5 V'),
};

/** Through the supply pins and through the ground pins of the chip, each. */
export const CHIP_TOTAL = fact(
  200,
  'seen',
  'ATmega328P data sheet (8271) §29.1, ATmega2560 (2549) §31: absolute maximum through VCC and through GND',
);

/** The sibling that is sold on boards that look alike, and carries half. */
export const PB_TOTAL = fact(
  100,
  'seen',
  'ATmega328PB data sheet (DS40001906C) §33.1: absolute maximum through VCC and through GND',
);

/** What the chip itself takes while it runs at 16 MHz and 5 V; more than it does asleep between ticks. */
export const CHIP_OWN = common(20);

/** What a whole board takes without lamps: chip, regulator, serial bridge and its own LEDs. */
export const BOARD_OWN = common(50);

/** One 74HC595. */
export const SHIFT_REGISTER = {
  output: fact(35, 'seen', '74HC595 data sheet (SCHS353): absolute maximum of an output'),
  chip: fact(70, 'seen', '74HC595 data sheet (SCHS353): absolute maximum through VCC or GND'),
  /** Its voltages are given up to this current only. */
  specified: fact(6, 'seen', '74HC595 data sheet (Philips, 2003): test condition of the outputs'),
};

/** One power shift register: eight low-side switches. */
export const POWER_REGISTER = {
  output: fact(150, 'seen', 'TPIC6B595 data sheet (SLIS032B): continuous sink current of an output'),
  volts: fact(50, 'seen', 'TPIC6B595 data sheet (SLIS032B): greatest output voltage'),
  /** Resistance of an output that is on, ohms. */
  ohms: fact(5, 'seen', 'TPIC6B595 data sheet (SLIS032B): typical on-state resistance'),
};

/** What a USB 2.0 socket gives a device that has asked for it. */
export const USB = fact(500, 'quoted', 'USB 2.0 specification §7.2.1: five unit loads of 100 mA');

/** Small NPN transistors of everyday types: collector current, and what is usually lost across them. */
export const SMALL_TRANSISTOR = {
  part: 'BC337 or 2N2222 (NPN)',
  collector: common(500),
  /** Collector current for each mA of base current that surely switches it fully on. */
  forcedGain: common(20),
  baseVolts: common(0.7),
  saturated: common(0.2),
};
