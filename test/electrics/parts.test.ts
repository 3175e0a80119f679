/** Parts lists, counted by hand. */
import { expect, it } from 'vitest';
import { baseOf } from '../../shared/electrics/drivers.ts';
import { partsOf } from '../../shared/electrics/parts.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import { compiled, example } from './layouts.ts';

const list = (made: { layout: Parameters<typeof partsOf>[0]; board: CompiledBoard }): [string, number][] =>
  partsOf(made.layout, made.board).map(({ what, count }) => [what, count]);

it('counts the example: seven heads of three lamps and two beacons', () => {
  const { layout, boards } = example('penmarrow');
  const board = boards[0] as CompiledBoard;
  expect(list({ layout, board })).toEqual([
    ['ATmega328P board', 1],
    ['LED, red', 7],
    ['LED, amber', 9],
    ['LED, green', 7],
    // (5 - 1.9) V, (5 - 2.4) V and (5 - 2.6) V at 5 mA: 620, 520 and 480 ohms.
    ['Resistor 680 Ω, ¼ W', 7],
    ['Resistor 560 Ω, ¼ W', 16],
    ['Wire, red', 7],
    ['Wire, yellow', 9],
    ['Wire, green', 7],
    ['Wire, black', 9],
  ]);
  expect(partsOf(layout, board).find(({ what }) => what.startsWith('Resistor 560'))?.note).toBe(
    'green, blue, brown, gold',
  );
});

it('adds what chains and drivers need', () => {
  const lamp = (id: string, rest: object) => ({ id, colour: 'white', ...rest });
  const power = { driver: 'power-register', volts: 12, count: 3, wired: 'series' };
  const lamps = [
    lamp('a', { bit: 0, electrics: { forward: 3 } }),
    lamp('b', { bit: 8, electrics: power }),
    lamp('c', { pin: 'D2', source: 'largeFilament', electrics: { driver: 'transistor', volts: 12, milliamps: 80 } }),
    lamp('d', { pin: 'D3', electrics: { resistor: 220, milliamps: 10 } }),
  ];
  const chain = { chips: 2, data: 'D8', clock: 'D9', latch: 'D10', enable: 'D7' };
  const made = compiled([{ kind: 'street-lamps', id: 's', name: 'S', board: 'b', strikes: 0, lamps }], {}, { chain });
  expect(partsOf(made.layout, made.board).map(({ what, count, note }) => [what, count, note])).toEqual([
    ['ATmega328P board', 1, 'Board'],
    ['Shift register 74HC595', 1, ''],
    ['Power shift register TPIC6B595', 1, 'eight outputs that switch to ground'],
    ['Capacitor 100 nF, ceramic', 2, 'one beside each chip, from VCC to GND'],
    ['Transistor BC337 or 2N2222 (NPN)', 1, 'emitter to ground, lamps at the collector'],
    ['LED, white', 1, 'taken for 3 V, 5 mA'],
    ['LED, white', 3, 'taken for 2.8 V, 5 mA'],
    ['Filament lamp 12 V, 80 mA', 1, 'takes several times as much for a moment when cold'],
    ['LED, white', 1, 'taken for 2.8 V, 10 mA'],
    // 2 V at 5 mA is 400 ohms; (12 - 8.4) V at 5 mA is 720 ohms.
    ['Resistor 470 Ω, ¼ W', 1, 'yellow, violet, brown, gold'],
    ['Resistor 820 Ω, ¼ W', 1, 'grey, red, brown, gold'],
    ['Resistor 220 Ω, ¼ W', 1, 'there already; red, red, brown, gold'],
    // Base: a twentieth of 80 mA through 4.3 V is 1075 ohms.
    ['Resistor 1.2 kΩ, ¼ W', 1, 'brown, red, red, gold'],
    ['Resistor 10 kΩ, ¼ W', 1, 'brown, black, orange, gold'],
    ['Wire, white', 4, 'from an output to a lamp'],
    ['Wire, black', 2, 'from each head to ground'],
    ['Wire, brown', 2, 'from each head to the plus of its supply'],
  ]);
});

it('gives a base at least 1 mA, and a strong transistor no more than a pin can give', () => {
  expect(baseOf(5, 5, 'E12')).toEqual({ ohms: 4700, milliamps: (4.3 / 4700) * 1000 });
  // 400 mA: 20 mA through 4.3 V are 215 ohms.
  expect(baseOf(400, 5, 'E12').ohms).toBe(220);
});
