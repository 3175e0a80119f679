/** The limits of the self-check worked out again from the data sheets' values, at the worst ends of all of them. */
import { describe, expect, test } from 'vitest';
import {
  ADC_ERROR,
  HIGH_OHMS,
  LEAK_AMPS,
  LEAST_PIN_OHMS,
  LED_REVERSE_AMPS,
  LED_VOLTS_AT_PULL_UP,
  LOW_OHMS,
  PIN_FARADS,
  PULL_UP_OHMS,
  SAMPLER_FARADS,
} from '../../shared/electrics/circuit/facts.ts';
import {
  CONDUCTS_AT_LEAST,
  HIGH_SIDE,
  LEAST_VOLTS,
  LOW_SIDE,
  MOST_TOLD_MILLIAMPS,
  MOST_VOLTS,
  mostDrop,
  SHORT_LIT_AT_LEAST,
} from '../../shared/lampcheck/self-check/limits.ts';

const [leastPull, mostPull] = PULL_UP_OHMS.value;
const [leastLed, mostLed] = LED_VOLTS_AT_PULL_UP.value;
const adc = ADC_ERROR.value / 1024;
/** From the letting go to the sample, s: firmware/PROTOCOL.md chapter 5. */
const [soonest, latest] = [12e-6, 20e-6];

describe('active high, under the pull-up', () => {
  test('an open pin reads above the limit for open', () => {
    const volts = LEAST_VOLTS - LEAK_AMPS.value * mostPull;
    expect(volts / LEAST_VOLTS - adc).toBeGreaterThan(HIGH_SIDE.openAtLeast);
  });

  test('an LED the wrong way round with all its leakage never reads as a lamp', () => {
    const volts = LEAST_VOLTS - (LEAK_AMPS.value + LED_REVERSE_AMPS.value) * mostPull;
    expect(volts / LEAST_VOLTS - adc).toBeGreaterThan(HIGH_SIDE.lampAtMost);
  });

  test('every LED reads as a lamp', () => {
    expect(leastLed / MOST_VOLTS - adc).toBeGreaterThan(HIGH_SIDE.lampAtLeast);
    expect(mostLed / LEAST_VOLTS + adc).toBeLessThan(HIGH_SIDE.lampAtMost);
  });

  test('a short, also over the low output of a neighbour, reads as one', () => {
    const volts = (MOST_VOLTS / leastPull) * LOW_OHMS.value;
    expect(volts / MOST_VOLTS + adc).toBeLessThan(HIGH_SIDE.shortAtMost);
  });

  test('the base of a transistor reads as nothing', () => {
    // 1 kilohm and 0.7 V, which an exchange of wires may bring there.
    const volts = 0.7 + ((LEAST_VOLTS - 0.7) / (leastPull + 1000)) * 1000;
    expect(volts / LEAST_VOLTS + adc).toBeLessThan(HIGH_SIDE.lampAtLeast);
    expect(0.7 / MOST_VOLTS - adc).toBeGreaterThan(HIGH_SIDE.shortAtMost);
  });
});

describe('active low, let go after it was low', () => {
  test('an open pin stays below the limit for open, whatever leaks', () => {
    const volts = (LEAK_AMPS.value * latest) / (PIN_FARADS.value + SAMPLER_FARADS.value);
    expect(volts / LEAST_VOLTS).toBeLessThan(LOW_SIDE.openAtMost);
  });

  test('every LED fills its wire into the limits for a lamp', () => {
    // An exponential with 52 mV an e-fold is at slope x farads / seconds after some time: 400 pF at the most.
    const slope = 0.052;
    const late = (slope * 400e-12) / soonest;
    expect(1 - (mostLed - slope * Math.log(1e-4 / late)) / LEAST_VOLTS - adc).toBeGreaterThan(LOW_SIDE.lampAtLeast);
    const early = (slope * 24e-12) / latest;
    expect(1 - (leastLed - slope * Math.log(1e-4 / early)) / MOST_VOLTS + adc).toBeLessThan(LOW_SIDE.lampAtMost);
  });

  test('leakage never counts as a current', () => {
    const volts = (LEAK_AMPS.value + LED_REVERSE_AMPS.value) * LOW_OHMS.value;
    expect(volts / LEAST_VOLTS + adc).toBeLessThan(CONDUCTS_AT_LEAST);
  });

  test('a lamp of 3 mA does, and a short more than any lamp', () => {
    expect((0.003 * LEAST_PIN_OHMS.value) / MOST_VOLTS - adc).toBeGreaterThan(CONDUCTS_AT_LEAST);
    expect(mostDrop(MOST_TOLD_MILLIAMPS, true)).toBeLessThan(SHORT_LIT_AT_LEAST);
    // Against a neighbour that holds the wire high with all the ohms that its data sheet allows.
    const share = LEAST_PIN_OHMS.value / (LEAST_PIN_OHMS.value + HIGH_OHMS.value);
    expect(share - adc).toBeGreaterThan(SHORT_LIT_AT_LEAST);
  });
});

describe('a missing resistor', () => {
  test('drops more than any planned current that is told', () => {
    // Least: a white LED of 3.3 V and 15 ohms inside (from memory) on the strongest pin.
    const amps = (LEAST_VOLTS - 3.3) / (LEAST_PIN_OHMS.value + 15);
    const drop = (amps * LEAST_PIN_OHMS.value) / LEAST_VOLTS;
    expect(drop - adc).toBeGreaterThan(mostDrop(MOST_TOLD_MILLIAMPS, false));
  });

  test('a sound lamp drops less, with a resistor 10 % too small', () => {
    for (const milliamps of [1, 5, 10]) {
      const high = ((1.1 * milliamps) / 1000) * HIGH_OHMS.value;
      const low = ((1.1 * milliamps) / 1000) * LOW_OHMS.value;
      expect(high / LEAST_VOLTS + adc).toBeLessThan(mostDrop(milliamps, false));
      expect(low / LEAST_VOLTS + adc).toBeLessThan(mostDrop(milliamps, true));
    }
  });
});
