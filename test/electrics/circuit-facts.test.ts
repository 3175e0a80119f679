/** The values of a pin as an input against what the data sheets print; what is from memory is marked and not checked. */
import { describe, expect, test } from 'vitest';
import * as facts from '../../shared/electrics/circuit/facts.ts';
import type { Fact } from '../../shared/practice/fact.ts';

const PRINTED: readonly (readonly [string, Fact<unknown>, unknown, RegExp])[] = [
  // ATmega328P data sheet 7810, 28.2 DC characteristics: VIL max 0.3 VCC, VIH min 0.6 VCC at 2.7 to 5.5 V.
  ['input low', facts.LOW_AT_MOST, 0.3, /7810 §28\.2/],
  ['input high', facts.HIGH_AT_LEAST, 0.6, /7810 §28\.2/],
  // ATmega328PB data sheet DS40001906, p. 406: I/O pin pull-up resistor 20 to 50 kilohm.
  ['pull-up', facts.PULL_UP_OHMS, [20_000, 50_000], /DS40001906 p\. 406/],
  // ATmega328P data sheet 8025, table 26-7: VINT 1.0, 1.1, 1.2 V; absolute accuracy 2 LSB.
  ['internal reference', facts.REFERENCE_VOLTS, [1.0, 1.1, 1.2], /8025 table 26-7/],
  ['converter', facts.ADC_ERROR, 2, /8025 table 26-7/],
];

describe('facts of an input', () => {
  test.each(PRINTED)('%s is as printed, with its source', (_, fact, value, source) => {
    expect(fact.value).toEqual(value);
    expect(fact.source).toMatch(source);
    expect(fact.confidence).toBe('seen');
  });

  // 8271 §29.2: VOH at least 4.2 V at -20 mA, VCC 5 V: (5 - 4.2) / 20 mA. 8025: VOL at most 0.9 V at 20 mA.
  test('what a pin drops follows from its outputs at 20 mA', () => {
    expect(facts.HIGH_OHMS.value).toBeCloseTo(40, 9);
    expect(facts.LOW_OHMS.value).toBeCloseTo(45, 9);
    expect(facts.HIGH_OHMS.confidence).toBe('derived');
  });

  test('all others say that they are from memory', () => {
    const known = new Set<unknown>([...PRINTED.map(([, fact]) => fact), facts.HIGH_OHMS, facts.LOW_OHMS]);
    for (const [name, fact] of Object.entries(facts)) {
      if (known.has(fact)) continue;
      expect(fact.confidence, name).toBe('memory');
      expect(fact.source, name).toMatch(/from memory/);
    }
  });
});
