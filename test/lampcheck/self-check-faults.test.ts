/**
 * The electrical self-check against faults: in the emulator with the shipped firmware, and on paper where many are
 * wanted. The truth comes from the list of faults, never from the network. With SOAK=1 all of it in the emulator.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { drawFrom, hangingBench, penmarrow, standingBench } from '../../scripts/confusion/benches.ts';
import { CORNERS, extremeConditions, singleFaults } from '../../scripts/confusion/cases.ts';
import {
  doubles,
  type EngineMaker,
  examine,
  type Found,
  onPaper,
  onTheChip,
  singles,
} from '../../scripts/confusion/count.ts';
import { confusion, DOUBLES, renewed, SEED } from '../../scripts/confusion/table.ts';
import { lieOf } from '../../scripts/confusion/truth.ts';
import { Network } from '../../shared/electrics/circuit/network.ts';
import type { Drive } from '../../shared/electrics/circuit/node.ts';
import type { Verdict } from '../../shared/lampcheck/self-check/verdict.ts';

const SOAK = process.env.SOAK === '1';

/** What somebody would want to read of a lie. */
const story = ({ load, faults, verdict, lie }: Found) =>
  `${load.outputName}: ${lie} (${verdict.kind}) with ${JSON.stringify(faults)}`;

function lies(found: Iterable<Found>): { readonly judged: number; readonly told: string[] } {
  let judged = 0;
  const told: string[] = [];
  for (const one of found) {
    if (one.verdict.kind !== 'cantTell') judged += 1;
    if (one.lie) told.push(story(one));
  }
  return { judged, told };
}

describe('in the emulator, by the shipped firmware', () => {
  test(`every${SOAK ? '' : ' seventh'} single fault on the outputs of the example is told without a lie`, () => {
    const pick = (index: number) => SOAK || index % 7 === 3;
    const { judged, told } = lies(singles(onTheChip, penmarrow(), SOAK ? CORNERS : CORNERS.slice(1, 2), pick));
    expect(told).toEqual([]);
    expect(judged).toBeGreaterThan(SOAK ? 1500 : 60);
  });

  test(`${SOAK ? DOUBLES : 12} random double faults on random boards are told without a lie`, () => {
    const { judged, told } = lies(doubles(onTheChip, SOAK ? DOUBLES : 12, SEED));
    expect(told).toEqual([]);
    expect(judged).toBeGreaterThan(SOAK ? 5500 : 50);
  });

  test.each([
    ['for lamps lit by high', standingBench],
    ['for lamps lit by low', hangingBench],
  ])('%s it says the same as the probe on paper', (_, bench) => {
    const verdicts = (make: EngineMaker) => {
      const share = singles(make, bench(), CORNERS.slice(0, 1), (index) => SOAK || index % 5 === 0);
      return [...share].map(({ load, faults, verdict }) => [load.outputName, faults, verdict.kind]);
    };
    expect(verdicts(onTheChip)).toEqual(verdicts(onPaper));
  });
});

describe('on paper', () => {
  test(`${SOAK ? DOUBLES : 300} random double faults, everything at an end of its data sheet, are told without a lie`, () => {
    const { judged, told } = lies(doubles(onPaper, SOAK ? DOUBLES : 300, SEED));
    expect(told).toEqual([]);
    expect(judged).toBeGreaterThan(SOAK ? 5500 : 1500);
  });

  test('no output that may stay lit carries more than 40 mA (8271 §29.1), but for a resistor that is missing unseen', () => {
    let lit = 0;
    for (const { load, loads, faults, verdict, truth } of doubles(onPaper, SOAK ? DOUBLES : 100, SEED)) {
      if (!verdict.mayStayLit || truth.noResistor) continue;
      const network = new Network(loads, faults);
      const drives = (output: number): Drive => {
        const on = output === load.output;
        const isLow = loads.some((one) => one.output === output && one.activeLow);
        return on === isLow ? 0 : 1;
      };
      const supply = network.supply(drives);
      const volts = network.volts(load.output, drives, supply);
      const { pinHighOhms, pinLowOhms } = network.parts;
      const amps = load.activeLow ? volts / pinLowOhms : (supply - volts) / pinHighOhms;
      expect(amps, `${load.outputName} ${JSON.stringify(faults)}`).toBeLessThan(0.04);
      lit += 1;
    }
    expect(lit).toBeGreaterThan(100);
  });

  test('a sound lamp never counts as open, shorted or without its resistor', () => {
    const draw = drawFrom(11);
    for (const { loads } of [penmarrow(), standingBench(), hangingBench()]) {
      for (let round = 0; round < 12; round++) {
        const engine = onPaper({ loads, table: penmarrow().table });
        engine.wire([], extremeConditions(draw));
        for (const load of loads) {
          const { verdict } = examine(engine, load, loads, []);
          expect(['lamp', 'notShorted', 'conducts', 'cantTell'], load.outputName).toContain(verdict.kind);
        }
      }
    }
  });

  test('a judge that trusts everything is caught', () => {
    const trusting: Verdict = { kind: 'lamp', what: 'Its resistor is there.', next: '', mayStayLit: true };
    const caught = new Set<string>();
    for (const found of singles(onPaper, hangingBench(), CORNERS.slice(0, 1))) {
      const lie = lieOf(trusting, found.truth);
      if (lie) caught.add(lie);
    }
    expect([...caught].sort()).toEqual([
      'a lamp where nothing conducts',
      'a lamp where there is a short',
      'a resistor where there is none',
    ]);
  });

  test('every kind of single fault is among those that are tried', () => {
    const kinds = new Set(singleFaults(penmarrow().loads).map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(['bridged', 'dim', 'noResistor', 'open', 'reversed', 'short', 'swapped']);
  });
});

test('the tables of the README are those that come out', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  // The last one is the firmware's own and a few of its counts may differ from those on paper; see `npm run confusion`.
  const upToDoubles = (text: string) => text.slice(0, text.indexOf('random boards with two random faults'));
  const made = renewed(readme, confusion(onPaper, 0));
  expect(made, 'no marks').not.toBeNull();
  expect(upToDoubles(readme)).toBe(upToDoubles(made ?? ''));
});
