/**
 * What the data sheets of the chips print about a pin that is read or that drives a lamp. Volts, amperes, ohms, farads,
 * seconds. Both chips; where only one data sheet was seen, the source says which.
 */
import { type Fact, fact, type Span } from '../../practice/fact.ts';

/** Share of the supply up to which an input is surely read as low. */
export const LOW_AT_MOST: Fact<number> = fact(
  0.3,
  'seen',
  'ATmega328P data sheet 7810 §28.2: input low voltage at most 0.3 VCC, VCC 2.7 to 5.5 V',
);

/** Share of the supply from which on an input is surely read as high. */
export const HIGH_AT_LEAST: Fact<number> = fact(
  0.6,
  'seen',
  'ATmega328P data sheet 7810 §28.2: input high voltage at least 0.6 VCC, VCC 2.7 to 5.5 V',
);

export const PULL_UP_OHMS: Fact<Span> = fact(
  [20_000, 50_000],
  'seen',
  'ATmega328PB data sheet DS40001906 p. 406 (sibling): I/O pin pull-up resistor 20 to 50 kilohm',
);

/** Least, typical and greatest. */
export const REFERENCE_VOLTS: Fact<readonly [number, number, number]> = fact(
  [1.0, 1.1, 1.2],
  'seen',
  'ATmega328P data sheet 8025 table 26-7: internal voltage reference 1.0, 1.1, 1.2 V',
);

/** Of 1,024, at 200 kHz. */
export const ADC_ERROR: Fact<number> = fact(
  2,
  'seen',
  'ATmega328P data sheet 8025 table 26-7: absolute accuracy 2 LSB at an ADC clock of 200 kHz, reference 4 V',
);

/** ADC clocks from the start of a conversion to its sample. */
export const SAMPLE_AFTER: Fact<number> = fact(
  1.5,
  'memory',
  'AVR data sheets, ADC timing: sample and hold 1.5 ADC clocks after the start; from memory',
);

/** Into or out of a pin that is an input. */
export const LEAK_AMPS: Fact<number> = fact(
  1e-6,
  'memory',
  'AVR data sheets, DC characteristics: input leakage current at most 1 microampere; from memory',
);

export const PIN_FARADS: Fact<number> = fact(
  10e-12,
  'memory',
  'AVR data sheets: capacitance of a pin at most 10 pF; from memory',
);

/** Of the sample-and-hold. */
export const SAMPLER_FARADS: Fact<number> = fact(
  14e-12,
  'memory',
  'AVR data sheets, analogue input circuitry: 14 pF; from memory',
);

/** At most, of a pin that drives high. */
export const HIGH_OHMS: Fact<number> = fact(
  (5 - 4.2) / 0.02,
  'derived',
  'ATmega328P data sheet 8271 §29.2: output high at least 4.2 V at 20 mA and 5 V, so at most 40 ohms',
);

/** At most, of a pin that drives low. */
export const LOW_OHMS: Fact<number> = fact(
  0.9 / 0.02,
  'derived',
  'ATmega328P data sheet 8025: output low at most 0.9 V at 20 mA and 5 V, so at most 45 ohms',
);

/** Less than this nobody has seen of a pin; only ever used to ask for more evidence. */
export const LEAST_PIN_OHMS: Fact<number> = fact(
  15,
  'memory',
  'curves of typical pins in the data sheets, from memory',
);

/** Highs and lows of a 74HC595 output, at most. */
export const CHAIN_HIGH_OHMS: Fact<number> = fact(
  (4.5 - 3.84) / 0.006,
  'memory',
  '74HC595 data sheets: output high at least 3.84 V at 6 mA and 4.5 V, 85 degrees; from memory',
);
export const CHAIN_LOW_OHMS: Fact<number> = fact(
  0.33 / 0.006,
  'memory',
  '74HC595 data sheets: output low at most 0.33 V at 6 mA and 4.5 V, 85 degrees; from memory',
);

/** Of a switch in a power shift register. */
export const SINK_OHMS: Fact<number> = fact(5, 'memory', 'TPIC6B595 data sheet: 5 ohms typical when on; from memory');

/** At 5 V the wrong way round, at most; a usual LED passes a thousandth of it. */
export const LED_REVERSE_AMPS: Fact<number> = fact(
  10e-6,
  'memory',
  'LED data sheets: reverse current at most 10 microamperes at 5 V; from memory',
);

/**
 * Volts of one LED at the 0.1 mA of a pull-up, from a deep red one to a blue or white one. Data sheets print none: the
 * self-check leaves room on both sides and is not tested against it.
 */
export const LED_VOLTS_AT_PULL_UP: Fact<Span> = fact([1.35, 2.9], 'memory', 'unproven; from memory');
