import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { branchOf } from '../../shared/electrics/circuit/branch.ts';
import { diodeThrough, filamentAmps, forwardAmps } from '../../shared/electrics/circuit/diode.ts';
import { USUAL_PARTS } from '../../shared/electrics/circuit/parts.ts';
import type { LampCircuit } from '../../shared/electrics/model.ts';

const SOUND = { reversed: false, noResistor: false, dim: false };
const red: LampCircuit = {
  driver: 'direct',
  source: 'led',
  volts: 5,
  forward: 2,
  milliamps: 10,
  count: 1,
  wired: 'parallel',
  resistor: 300,
  isGiven: true,
};

/** Volts across one diode for a current, straight from the formula. */
const volts = (amps: number, d: ReturnType<typeof diodeThrough>) =>
  d.slope * Math.log1p(amps / d.saturation) + amps * d.ohms;

describe('an LED', () => {
  test('goes through the point of its data sheet', () => {
    // Vishay 83005: red, typically 2.0 V at 20 mA.
    const diode = diodeThrough(2, 0.02, USUAL_PARTS);
    expect(volts(0.02, diode)).toBeCloseTo(2, 9);
    expect(forwardAmps(2, diode, 1, 1e-9)).toBeCloseTo(0.02, 6);
  });

  test('carries what the formula of the data sheets says with its resistor', () => {
    // R = (Vs - Vf) / I: 5 V, 2 V, 10 mA want 300 ohms.
    expect(branchOf(red, SOUND, USUAL_PARTS)(5) * 1000).toBeCloseTo(10, 3);
  });

  test('chains share the voltage', () => {
    const three = { ...red, volts: 12, count: 3, wired: 'series' as const, resistor: 600 };
    expect(branchOf(three, SOUND, USUAL_PARTS)(12) * 1000).toBeCloseTo(10, 3);
  });

  test('passes next to nothing the wrong way round, and as much turned about', () => {
    const turned = branchOf(red, { ...SOUND, reversed: true }, USUAL_PARTS);
    expect(turned(5)).toBeCloseTo(USUAL_PARTS.reverseAmps, 12);
    expect(turned(-5) * 1000).toBeCloseTo(-10, 3);
  });

  test('ten times the resistor leaves about a tenth; without one the supply drives it hard', () => {
    expect(branchOf(red, { ...SOUND, dim: true }, USUAL_PARTS)(5) * 1000).toBeCloseTo(1.04, 1);
    expect(branchOf(red, { ...SOUND, noResistor: true }, USUAL_PARTS)(5) * 1000).toBeGreaterThan(100);
  });

  test('a fitted resistor is one that gives the wanted current', () => {
    expect(branchOf({ ...red, resistor: 'fitted' }, SOUND, USUAL_PARTS)(5) * 1000).toBeCloseTo(10, 3);
  });

  test('the current that comes out obeys the formula, for any LED, chain, resistor and voltage', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.2, max: 3.6, noNaN: true }),
        fc.double({ min: 0.0005, max: 0.1, noNaN: true }),
        fc.integer({ min: 1, max: 8 }),
        fc.double({ min: 0, max: 100_000, noNaN: true }),
        fc.double({ min: 0.01, max: 24, noNaN: true }),
        (forward, amps, chain, ohms, across) => {
          const diode = diodeThrough(forward, amps, USUAL_PARTS);
          const found = forwardAmps(across, diode, chain, ohms);
          expect(found).toBeGreaterThanOrEqual(0);
          expect(chain * volts(found, diode) + found * ohms).toBeCloseTo(across, 6);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('a filament', () => {
  const rated = { volts: 12, amps: 0.05 };

  test('takes its rated current at its rated voltage, and has a tenth of the resistance when cold', () => {
    expect(filamentAmps(12, rated)).toBeCloseTo(0.05, 12);
    expect(0.001 / filamentAmps(0.001, rated)).toBeCloseTo(24, 9);
  });

  test('does not mind which way round, and never falls', () => {
    let before = Number.NEGATIVE_INFINITY;
    for (let at = -15; at <= 15; at += 0.01) {
      const amps = filamentAmps(at, rated);
      expect(amps).toBeGreaterThanOrEqual(before);
      expect(amps).toBeCloseTo(-filamentAmps(-at, rated), 12);
      before = amps;
    }
  });

  test('behind a resistor takes its rated current at the whole voltage', () => {
    const bulb: LampCircuit = { ...red, source: 'filament', forward: 0, volts: 12, milliamps: 50, resistor: 40 };
    expect(branchOf(bulb, SOUND, USUAL_PARTS)(12) * 1000).toBeCloseTo(50, 3);
    expect(branchOf(bulb, { ...SOUND, reversed: true }, USUAL_PARTS)(12) * 1000).toBeCloseTo(50, 3);
  });
});
