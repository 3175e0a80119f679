/** Resistors against published tables and worked examples; each source beside its check. */
import { describe, expect, it } from 'vitest';
import { bandsOf, ohmsOf, ohmsText } from '../../shared/electrics/bands.ts';
import { resistorFor } from '../../shared/electrics/lamp-circuit.ts';
import { isPreferred, nextGreater, SERIES } from '../../shared/electrics/preferred.ts';
import { branchFigures, leastMilliamps, WIRES, wireDrop } from '../../shared/electrics/resistors.ts';

const led = (volts: number, forward: number, milliamps: number, count = 1, wired: 'parallel' | 'series' = 'parallel') =>
  ({ volts, forward, milliamps, count, wired }) as const;

describe('preferred values (IEC 60063)', () => {
  it('has twelve and twenty-four steps a decade, all of E12 in E24', () => {
    expect(SERIES.E12.value).toHaveLength(12);
    expect(SERIES.E24.value).toHaveLength(24);
    expect(SERIES.E12.value.every((value) => SERIES.E24.value.includes(value))).toBe(true);
  });

  it('keeps steps about equal: 10 to the power of 1/12 and 1/24, within a tenth', () => {
    for (const [series, steps] of [
      ['E12', 12],
      ['E24', 24],
    ] as const) {
      const { value } = SERIES[series];
      const ratios = value.map((at, index) => (value[index + 1] ?? 100) / at);
      for (const ratio of ratios) expect(Math.abs(ratio / 10 ** (1 / steps) - 1)).toBeLessThan(0.1);
    }
  });

  it('goes to the next greater one in every decade, and stays on an exact one', () => {
    expect(nextGreater(350, 'E12')).toBe(390);
    expect(nextGreater(330, 'E12')).toBe(330);
    expect(nextGreater(330.0001, 'E24')).toBe(360);
    expect(nextGreater(4.61, 'E12')).toBe(4.7);
    expect(nextGreater(0.2, 'E12')).toBe(1);
    expect(nextGreater(91.1, 'E24')).toBe(100);
    expect(nextGreater(9.2e6, 'E24')).toBe(10e6);
    expect(nextGreater(10.1e6, 'E12')).toBeNull();
    expect(nextGreater(Number.NaN, 'E12')).toBeNull();
    expect(isPreferred(4700, 'E12')).toBe(true);
    expect(isPreferred(5100, 'E12')).toBe(false);
  });
});

describe('worked examples', () => {
  it.each([
    // Resistor tutorial: 350 ohms, so 390 of E12.
    ['9 V, 2 V, 20 mA', led(9, 2, 20), 'E12', 390],
    // Tutorial.
    ['12 V, 2.1 V, 30 mA', led(12, 2.1, 30), 'E12', 330],
    // Encyclopaedia, LED circuit: 1440 ohms, 1.5 kilohm there as nearest and here as next greater.
    ['9 V, 1.8 V, 5 mA', led(9, 1.8, 5), 'E24', 1500],
    // University lab notes, all E24 upward.
    ['5 V, 1.8 V, 10 mA', led(5, 1.8, 10), 'E24', 330],
    ['5 V, 2.1 V, 10 mA', led(5, 2.1, 10), 'E24', 300],
    ['5 V, 2.1 V, 20 mA', led(5, 2.1, 20), 'E24', 150],
    ['5 V, 1.8 V, 5 mA', led(5, 1.8, 5), 'E24', 680],
    ['12 V, 2.1 V, 20 mA', led(12, 2.1, 20), 'E24', 510],
    ['3.3 V, 2.1 V, 20 mA', led(3.3, 2.1, 20), 'E24', 62],
  ] as const)('%s', (_, circuit, series, ohms) => {
    expect(resistorFor(circuit, series)).toBe(ohms);
  });

  it('goes up where the encyclopaedia goes to the nearest: 12 V, 1.8 V, 5 mA are 2040 ohms, not 2 kilohm', () => {
    expect(resistorFor(led(12, 1.8, 5), 'E24')).toBe(2200);
  });

  it('puts LEDs one after the other while the supply allows it', () => {
    expect(resistorFor(led(12, 2, 10, 3, 'series'), 'E12')).toBe(680);
    expect(resistorFor(led(12, 2, 10, 6, 'series'), 'E12')).toBeNull();
    expect(resistorFor(led(2, 2.4, 5), 'E12')).toBeNull();
  });
});

describe('real figures', () => {
  const made = { ...led(12, 2, 20), driver: 'direct', source: 'led', isGiven: false } as const;

  it('never lets more through than wanted', () => {
    const { milliamps, watts, rating } = branchFigures({ ...made, resistor: 560 });
    expect(milliamps).toBeCloseTo(17.857, 3);
    // 10 V and 17.86 mA: 0.179 W, twice that is within half a watt.
    expect(watts).toBeCloseTo(0.17857, 5);
    expect(rating).toBe(0.5);
  });

  it('says what a resistor that is there does', () => {
    expect(branchFigures({ ...made, resistor: 100, isGiven: true }).milliamps).toBeCloseTo(100, 6);
    expect(branchFigures({ ...made, resistor: 'fitted' })).toEqual({ milliamps: 20, watts: 0, rating: null });
  });

  it('says how much less it may be, by what the output drops (8271 §29.2: at least 4.2 of 5 V at 20 mA)', () => {
    const load = {
      lamp: 0,
      output: 5,
      outputName: 'D5',
      site: 's',
      siteName: 'S',
      label: 'L',
      colour: 'red',
      path: 'sites[0].lamps[0]',
      activeLow: false,
      wire: 'red',
      heads: [
        { id: 'a', name: 'A' },
        { id: 'b', name: 'B' },
      ],
      circuit: { ...made, volts: 5, resistor: 300 },
    } as const;
    // 3 V over 300 ohms and, for two of them together, twice 0.8 V / 20 mA = 40 ohms.
    expect(leastMilliamps(load)).toBeCloseTo(3000 / 380, 9);
    // Low side: 0.9 V at 20 mA are 45 ohms (8025).
    expect(leastMilliamps({ ...load, activeLow: true })).toBeCloseTo(3000 / 390, 9);
    // 5 ohms of a power register (SLIS032B) carry both heads.
    const power = { ...load.circuit, driver: 'power-register' } as const;
    expect(leastMilliamps({ ...load, output: 128, circuit: power })).toBeCloseTo(3000 / 310, 9);
  });

  it('loses little in thin wire: two metres each way of 30 AWG at 20 mA, by wire tables', () => {
    expect(WIRES['30 AWG'].value * 1000).toBeCloseTo(338.5, 6);
    expect(wireDrop(20, 2, '30 AWG')).toBeCloseTo(0.02708, 5);
  });
});

describe('rings (IEC 60062)', () => {
  it.each([
    // Colour-code chart, 5 %.
    [1000, ['brown', 'black', 'red', 'gold']],
    [4700, ['yellow', 'violet', 'red', 'gold']],
    [22000, ['red', 'red', 'orange', 'gold']],
    [4.7, ['yellow', 'violet', 'gold', 'gold']],
    [10, ['brown', 'black', 'black', 'gold']],
    [0.47, ['yellow', 'violet', 'silver', 'gold']],
  ] as const)('%d ohms in four rings', (ohms, bands) => {
    expect(bandsOf(ohms, 4)).toEqual(bands);
    expect(ohmsOf([...bands])).toBe(ohms);
  });

  it('has five rings at 1 %', () => {
    expect(bandsOf(680, 5)).toEqual(['blue', 'grey', 'black', 'black', 'brown']);
    expect(bandsOf(4700, 5)).toEqual(['yellow', 'violet', 'black', 'brown', 'brown']);
  });

  it('reads back every value of both series in every decade', () => {
    for (const rings of [4, 5] as const) {
      for (let at: number | null = 1; at !== null && at < 1e7; at = nextGreater(at * 1.001, 'E24')) {
        const bands = bandsOf(at, rings);
        expect(bands && ohmsOf(bands)).toBeCloseTo(at, 9);
      }
    }
  });

  it('has none for what two digits cannot say', () => {
    expect(bandsOf(4721, 4)).toBeNull();
    expect(bandsOf(472, 5)).toEqual(['yellow', 'violet', 'red', 'black', 'brown']);
    expect(bandsOf(0, 4)).toBeNull();
    expect(ohmsOf(['gold', 'red', 'red', 'gold'])).toBeNull();
  });

  it('says values as people do', () => {
    expect([330, 4700, 1e6, 4.7].map(ohmsText)).toEqual(['330 Ω', '4.7 kΩ', '1 MΩ', '4.7 Ω']);
  });
});
