/** Nobody sees a probe: how long it takes, what flows through the lamps, and that all others stay dark. */
import { describe, expect, test } from 'vitest';
import { CPU_HZ } from '../../electron/host/virtual/chips.ts';
import { type Bench, hangingBench, penmarrow, standingBench } from '../../scripts/confusion/benches.ts';
import { EmulatedBoard } from '../../scripts/confusion/emulated.ts';
import { PLAIN } from '../../scripts/confusion/paper.ts';
import { glowOf } from '../../shared/electrics/circuit/glow.ts';
import { Network } from '../../shared/electrics/circuit/network.ts';
import type { Drive } from '../../shared/electrics/circuit/node.ts';
import type { Load } from '../../shared/electrics/model.ts';

const MICROSECOND = CPU_HZ / 1e6;
/** Time over which an eye adds up light in the dark, s (Bloch's law, about 0.1 s; from memory). */
const EYE = 0.1;

interface Watched {
  /** From the first change at the pin to the last, microseconds. */
  readonly lasted: number;
  /** Coulombs through one LED of each load, by load. */
  readonly charge: readonly number[];
}

/** One probe with all pins watched cycle by cycle. The pull-up's time is told by the levels `z`: 0.1 mA at most. */
function watched(emulated: EmulatedBoard, { loads }: Bench, load: Load): Watched {
  const network = new Network(loads);
  const state = new Map<number, Drive>(loads.map((one) => [one.output, one.activeLow ? 1 : 0]));
  const charge = loads.map(() => 0);
  let first = 0;
  let last = 0;
  const until = (cycles: number) => {
    const drives = (output: number) => state.get(output) ?? 0;
    const amps = network.lampAmps(drives, 5);
    const seconds = (cycles - last) / CPU_HZ;
    for (const index of charge.keys()) charge[index] = (charge[index] ?? 0) + (amps[index]?.[0] ?? 0) * seconds;
    last = cycles;
  };
  emulated.board.onPin = (pin, level, cycles) => {
    if (!state.has(pin)) return;
    if (first === 0) {
      first = cycles;
      last = cycles;
    }
    until(cycles);
    // Without pull-up when lit by low; with it the current is the larger one, so it is the one that is taken.
    state.set(pin, level === 'z' ? (load.activeLow ? 'free' : 'pulled') : level);
  };
  emulated.probe(load.output, load.activeLow);
  emulated.board.onPin = () => {};
  return { lasted: (last - first) / MICROSECOND, charge };
}

describe.each([
  ['the example', penmarrow],
  ['lamps of every kind', standingBench],
  ['lamps lit by low', hangingBench],
])('a probe of %s', (_, make) => {
  const bench = make();
  const emulated = new EmulatedBoard(bench);
  emulated.wire(bench.loads, [], PLAIN);
  const probes = bench.loads.map((load) => ({ load, ...watched(emulated, bench, load) }));

  test('lasts less than a millisecond', () => {
    for (const { lasted, load } of probes) expect(lasted, load.outputName).toBeLessThan(450);
    expect(Math.max(...probes.map(({ lasted }) => lasted))).toBeGreaterThan(90);
  });

  test('passes so little through the lamp that it counts as dark, and nothing through its neighbours', () => {
    for (const { load, charge } of probes) {
      for (const [index, other] of bench.loads.entries()) {
        const through = charge[index] ?? 0;
        expect(glowOf({ ...other.circuit, source: 'led' }, through / EYE), load.outputName).toBe('dark');
        if (other !== load) expect(through, `${load.outputName} ${other.outputName}`).toBeLessThan(1e-12);
      }
    }
    // At most a quarter of a microcoulomb for a lamp of 5 mA: as long as it takes 50 us to pass when lit.
    const plain = probes.filter(({ load }) => load.circuit.milliamps === 5 && load.circuit.driver === 'direct');
    const most = Math.max(...plain.map(({ charge, load }) => charge[bench.loads.indexOf(load)] ?? 0));
    expect(most).toBeGreaterThan(0);
    expect(most).toBeLessThan(0.3e-6);
  });
});
