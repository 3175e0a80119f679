import { describe, expect, test } from 'vitest';
import { glowOf, glowOfAll } from '../../shared/electrics/circuit/glow.ts';
import { levelAt } from '../../shared/electrics/circuit/levels.ts';
import { Network } from '../../shared/electrics/circuit/network.ts';
import type { Drive } from '../../shared/electrics/circuit/node.ts';
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import { loadAt, TWO_HEADS } from './circuit-loads.ts';

/** Everything low but what is named. */
const drives = (named: Readonly<Record<number, Drive>>) => (output: number) => named[output] ?? 0;

function glow(loads: readonly Load[], faults: readonly WiringFault[], named: Readonly<Record<number, Drive>>) {
  return glowOfAll(new Network(loads, faults), drives(named)).map((heads) => heads.join('/'));
}

const pair = [loadAt(0, 2), loadAt(1, 3)];

describe('what a person sees', () => {
  test('a lamp is lit by its output and by no other', () => {
    expect(glow(pair, [], { 2: 1 })).toEqual(['lit', 'dark']);
    expect(glow(pair, [], {})).toEqual(['dark', 'dark']);
  });

  test('an open lamp stays dark; of two heads only the broken one', () => {
    expect(glow(pair, [{ kind: 'open', lamp: 0 }], { 2: 1 })).toEqual(['dark', 'dark']);
    const shared = [loadAt(0, 2, {}, TWO_HEADS)];
    expect(glow(shared, [{ kind: 'open', lamp: 0, head: 1 }], { 2: 1 })).toEqual(['lit/dark']);
    expect(glow(shared, [{ kind: 'open', lamp: 0 }], { 2: 1 })).toEqual(['dark/dark']);
  });

  test('the wrong way round and short are dark, a large resistor dim, none bright', () => {
    expect(glow(pair, [{ kind: 'reversed', lamp: 0 }], { 2: 1 })[0]).toBe('dark');
    expect(glow(pair, [{ kind: 'short', lamp: 0 }], { 2: 1 })[0]).toBe('dark');
    expect(glow(pair, [{ kind: 'dim', lamp: 0 }], { 2: 1 })[0]).toBe('dim');
    expect(glow(pair, [{ kind: 'noResistor', lamp: 0 }], { 2: 1 })[0]).toBe('bright');
  });

  test('exchanged wires light each other', () => {
    expect(glow(pair, [{ kind: 'swapped', lamp: 0, with: 1 }], { 2: 1 })).toEqual(['dark', 'lit']);
  });

  test('three in a ring: two exchanges, one after the other', () => {
    const ring = [loadAt(0, 2), loadAt(1, 3), loadAt(2, 4)];
    const faults: WiringFault[] = [
      { kind: 'swapped', lamp: 0, with: 1 },
      { kind: 'swapped', lamp: 1, with: 2 },
    ];
    expect(glow(ring, faults, { 3: 1 })).toEqual(['lit', 'dark', 'dark']);
    expect(glow(ring, faults, { 4: 1 })).toEqual(['dark', 'lit', 'dark']);
    expect(glow(ring, faults, { 2: 1 })).toEqual(['dark', 'dark', 'lit']);
  });

  test('touching wires pull against each other: both red lamps are dim, both lit together are right', () => {
    const faults: WiringFault[] = [{ kind: 'bridged', lamp: 0, with: 1 }];
    expect(glow(pair, faults, { 2: 1 })).toEqual(['dim', 'dim']);
    expect(glow(pair, faults, { 2: 1, 3: 1 })).toEqual(['lit', 'lit']);
  });

  test('an exchanged wire that is broken, too, is dark at its new output', () => {
    const faults: WiringFault[] = [
      { kind: 'swapped', lamp: 0, with: 1 },
      { kind: 'open', lamp: 0 },
    ];
    expect(glow(pair, faults, { 3: 1 })).toEqual(['dark', 'dark']);
    expect(glow(pair, faults, { 2: 1 })).toEqual(['dark', 'lit']);
  });

  test('lit by low: common anode', () => {
    const anode = [loadAt(0, 2, {}, { activeLow: true })];
    expect(glow(anode, [], { 2: 0 })).toEqual(['lit']);
    expect(glow(anode, [], { 2: 1 })).toEqual(['dark']);
    expect(glow(anode, [{ kind: 'short', lamp: 0 }], { 2: 0 })).toEqual(['dark']);
  });

  test('behind a transistor, in a power shift register, on a bit of the chain', () => {
    const many = { driver: 'transistor', volts: 12, count: 5, wired: 'series', resistor: 470, milliamps: 5 } as const;
    const loads = [
      loadAt(0, 2, many),
      loadAt(1, 128, { driver: 'power-register', volts: 12, source: 'filament', milliamps: 60, resistor: null }),
      loadAt(2, 129),
    ];
    expect(glow(loads, [], { 2: 1, 128: 1, 129: 1 })).toEqual(['lit', 'lit', 'lit']);
    expect(glow(loads, [], {})).toEqual(['dark', 'dark', 'dark']);
    expect(glow(loads, [{ kind: 'reversed', lamp: 0 }], { 2: 1 })[0]).toBe('dark');
  });

  test('limits: a fiftieth, two fifths and 1.8 times the wanted current (common practice, no source)', () => {
    const { circuit } = loadAt(0, 2, { milliamps: 10 });
    const seen = [0.00019, 0.00021, 0.0039, 0.0041, 0.0179, 0.0181].map((amps) => glowOf(circuit, amps));
    expect(seen).toEqual(['dark', 'dim', 'dim', 'lit', 'lit', 'bright']);
  });
});

describe('voltages', () => {
  test('ATmega328P: 4.2 V are left of 5 V at 20 mA (8271 §29.2), and a short takes 125 mA', () => {
    // A filament that takes 20 mA at 4.2 V.
    const loads = [loadAt(0, 2, { source: 'filament', volts: 4.2, milliamps: 20, resistor: null })];
    const network = new Network(loads, [], { supplyOhms: 0 });
    expect(network.volts(2, drives({ 2: 1 }), 5)).toBeCloseTo(4.2, 3);
    const shorted = new Network(loads, [{ kind: 'short', lamp: 0 }], { supplyOhms: 0, touchOhms: 1e-6 });
    expect(shorted.volts(2, drives({ 2: 1 }), 5)).toBeCloseTo(0, 3);
  });

  test('the supply sags by what flows through its cable', () => {
    const loads = Array.from({ length: 10 }, (_, lamp) => loadAt(lamp, 2 + lamp));
    const network = new Network(loads, [], { supplyOhms: 1, boardAmps: 0.05 });
    expect(network.supply(drives({}))).toBeCloseTo(4.95, 2);
    const all = Object.fromEntries(loads.map(({ output }) => [output, 1 as const]));
    const amps = network.lampAmps(drives(all), network.supply(drives(all))).flat();
    const sum = amps.reduce((total, one) => total + one, 0);
    expect(sum).toBeGreaterThan(0.04);
    expect(network.supply(drives(all))).toBeCloseTo(5 - 0.05 - sum, 2);
  });

  test('what a driven pin gives is what its lamps take, for any lamps, resistors and supplies', () => {
    const draw = (seed: number) => {
      const value = Math.sin(seed * 12.9898) * 43758.5453;
      return value - Math.floor(value);
    };
    for (let seed = 1; seed < 200; seed++) {
      const circuit = {
        forward: 1.6 + 1.6 * draw(seed),
        milliamps: 1 + 19 * draw(seed + 0.1),
        resistor: 1500 * draw(seed + 0.2),
        count: 1 + Math.floor(3 * draw(seed + 0.3)),
        wired: draw(seed + 0.4) < 0.3 ? ('series' as const) : ('parallel' as const),
      };
      const load = loadAt(0, 14, circuit, { ...TWO_HEADS, activeLow: seed % 2 === 0 });
      const network = new Network([load], [], { supplyVolts: 4.5 + draw(seed + 0.5), pinHighOhms: 40, pinLowOhms: 45 });
      const lit = drives({ 14: load.activeLow ? 0 : 1 });
      const supply = network.supply(lit);
      const volts = network.volts(14, lit, supply);
      const given = load.activeLow ? volts / 45 : (supply - volts) / 40;
      const heads = network.lampAmps(lit, supply)[0] ?? [];
      const taken = heads.reduce((sum, one) => sum + one, 0) * (circuit.wired === 'parallel' ? circuit.count : 1);
      expect(given, JSON.stringify(circuit)).toBeCloseTo(taken, 6);
    }
  });

  test('an overload drags it down to where it balances', () => {
    const many = { driver: 'transistor', count: 60, resistor: null, milliamps: 20, forward: 2.4 } as const;
    const loads = [0, 1, 2].map((lamp) => loadAt(lamp, 2 + lamp, many));
    const network = new Network(loads, [], { supplyOhms: 2, boardAmps: 0.05, gain: 1e6 });
    const lit = drives({ 2: 1, 3: 1, 4: 1 });
    const supply = network.supply(lit);
    const sum =
      60 *
      network
        .lampAmps(lit, supply)
        .flat()
        .reduce((total, one) => total + one, 0);
    // Where the curve is this steep a step of the supply is some ten milliamperes.
    expect(Math.abs(supply - (5 - 2 * (0.05 + sum)))).toBeLessThan(0.3);
    expect(supply).toBeLessThan(3);
  });

  test('lamps with a feed of their own leave the supply alone', () => {
    const loads = [
      loadAt(0, 2, { driver: 'transistor', volts: 12, source: 'filament', milliamps: 200, resistor: null }),
    ];
    const network = new Network(loads, [], { supplyOhms: 1, boardAmps: 0.05 });
    // Only the base takes some milliamperes.
    expect(network.supply(drives({ 2: 1 }))).toBeGreaterThan(4.94);
  });

  test('a pull-up of 35 kilohm holds an open pin high, a lamp between, a short low', () => {
    const at = (faults: WiringFault[], colour: Partial<Load['circuit']> = {}) =>
      new Network([loadAt(0, 2, colour)], faults).volts(2, drives({ 2: 'pulled' }), 5);
    expect(at([{ kind: 'open', lamp: 0 }])).toBeCloseTo(5, 2);
    expect(at([{ kind: 'short', lamp: 0 }])).toBeLessThan(0.001);
    // Plausible, not proven: see `LED_VOLTS_AT_PULL_UP`.
    expect(at([])).toBeGreaterThan(1.4);
    expect(at([])).toBeLessThan(1.9);
    expect(at([], { forward: 2.8 })).toBeLessThan(2.8);
  });

  test('a released wire fills through what pulls it: one time constant leaves 1 - 1/e', () => {
    const network = new Network([loadAt(0, 2)], [{ kind: 'open', lamp: 0 }], { pullUpOhms: 50_000, farads: 400e-12 });
    const fill = (seconds: number) => network.drift(2, drives({ 2: 'pulled' }), 5, 0, seconds);
    expect(fill(20e-6) / 5).toBeCloseTo(1 - Math.exp(-1), 1.7);
    expect(fill(100e-6) / 5).toBeCloseTo(1 - Math.exp(-5), 2);
    expect(fill(0)).toBe(0);
  });

  test('leakage drives an open pin that nothing holds', () => {
    const network = new Network([loadAt(0, 2)], [{ kind: 'open', lamp: 0 }], { leakAmps: 1e-6, farads: 24e-12 });
    // 1 uA for 12 us into 24 pF: 0.5 V.
    expect(network.drift(2, drives({ 2: 'free' }), 5, 0, 12e-6)).toBeCloseTo(0.5, 2);
  });
});

describe('a digital input', () => {
  test('reads low to 0.3 VCC and high from 0.6 VCC (7810 §28.2); between, as the test decides', () => {
    for (const zone of ['low', 'high'] as const) {
      expect(levelAt(1.5, 5, zone)).toBe(0);
      expect(levelAt(3, 5, zone)).toBe(1);
      expect(levelAt(2.2, 5, zone)).toBe(zone === 'high' ? 1 : 0);
    }
    const asked: (0 | 1)[] = [1, 0];
    expect([1.6, 2.9].map((volts) => levelAt(volts, 5, () => asked.pop() ?? 0))).toEqual([0, 1]);
  });
});
