/** Sums of currents by hand, and against the reference interpreter for whole layouts. */
import { describe, expect, it } from 'vitest';
import { type BudgetLine, budgetOf } from '../../shared/electrics/budget.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import { type Dice, pick, seededDice, shuffled } from '../fixtures/dice.ts';
import { wander } from './brute-force.ts';
import { compiled, example } from './layouts.ts';

const RUNS = Number(process.env.AMBERWICK_RUNS ?? (process.env.SOAK ? 200 : 8));
const line = (lines: readonly BudgetLine[], is: BudgetLine['is'], name: string): BudgetLine | undefined =>
  lines.find((it) => it.is === is && it.name.startsWith(name));

describe('the example, by hand', () => {
  const { layout, boards } = example('penmarrow');
  const budget = budgetOf(layout, boards[0] as CompiledBoard);

  it('carries two heads on D2: twice (5 - 1.9) V over 680 ohms', () => {
    expect(line(budget.lines, 'pin', 'D2')?.worst).toBeCloseTo((2 * 3.1e3) / 680, 9);
  });

  it('is worst with red and amber against red at both junctions, and one beacon', () => {
    const red = 3.1e3 / 680;
    const amber = 2.6e3 / 560;
    const green = 2.4e3 / 560;
    // Market Cross: two heads each way. Chapel Corner: two heads along, one head across. One beacon at a time.
    const market = 2 * (red + amber + red);
    const chapel = 2 * (red + amber) + red;
    expect(2 * red + 2 * green).toBeLessThan(market);
    const all = line(budget.lines, 'chip', 'Chip, through VCC');
    expect(all?.worst).toBeCloseTo(20 + market + chapel + amber, 9);
    expect(all?.exact).toBe(true);
    expect(line(budget.lines, 'supply', 'USB')?.worst).toBeCloseTo(50 + market + chapel + amber, 9);
    expect(budget.everything).toBeGreaterThan(market + chapel + amber);
  });

  it('averages over the cycle: the amber of Fore Street is lit for 3 s red with amber and amber of each cycle', () => {
    // Cycle of Market Cross: 18 + 6 + 12 + 6 s; amber of A: 3 s after its green and 2 s before it.
    const d3 = line(budget.lines, 'pin', 'D3');
    expect(budget.basis).toBe('cycle');
    expect((d3?.average ?? 0) / (d3?.worst ?? 1)).toBeCloseTo(5 / 42, 9);
    // Alternate beacons: each half of the time.
    expect((line(budget.lines, 'pin', 'A1')?.average ?? 0) / (line(budget.lines, 'pin', 'A1')?.worst ?? 1)).toBeCloseTo(
      0.5,
      9,
    );
  });
});

describe('drivers', () => {
  it('gives the base current to the pin and the lamp current to the supply that feeds it', () => {
    const lamp = { id: 'l', colour: 'white', pin: 'D2', source: 'largeFilament' };
    const electrics = { driver: 'transistor', volts: 12, milliamps: 100 };
    const site = { kind: 'street-lamps', id: 's', name: 'S', board: 'b', strikes: 0, lamps: [{ ...lamp, electrics }] };
    const { layout, board } = compiled([site]);
    const { lines } = budgetOf(layout, board);
    // A twentieth of 100 mA through 4.3 V: 860 ohms, so 1 kilohm and 4.3 mA.
    expect(line(lines, 'pin', 'D2')?.worst).toBeCloseTo(4.3, 9);
    expect(line(lines, 'driver', 'Transistor behind D2')?.worst).toBe(100);
    expect(line(lines, 'supply', 'Supply of the lamps, 12 V')?.worst).toBe(100);
    expect(line(lines, 'supply', 'USB')?.worst).toBeCloseTo(54.3, 9);
  });
});

const KINDS: readonly ((id: string, pins: readonly string[]) => object)[] = [
  (id, [a, b]) => ({
    kind: 'zebra',
    id,
    beacons: [
      { id: 'a', pin: a },
      { id: 'b', pin: b },
    ],
    flash: 'alternate',
  }),
  (id, [red, amber, green, stop, go]) => ({
    kind: 'pelican',
    id,
    vehicles: { red: { pin: red }, amber: { pin: amber }, green: { pin: green } },
    pedestrians: { red: { pin: stop }, green: { pin: go } },
    buttons: ['button'],
  }),
  (id, [red, amber, green, red2, amber2, green2]) => ({
    kind: 'junction',
    id,
    phases: [
      { id: 'A', name: 'A', lamps: { red: { pin: red }, amber: { pin: amber }, green: { pin: green } } },
      { id: 'B', name: 'B', lamps: { red: { pin: red2 }, amber: { pin: amber2 }, green: { pin: green2 } } },
    ],
    heads: [
      { id: 'h1', name: 'H1', phase: 'A' },
      { id: 'h2', name: 'H2', phase: 'A' },
    ],
    stages: [
      { id: '1', phases: ['A'], green: 10 },
      { id: '2', phases: ['B'], green: 8 },
    ],
  }),
  (id, [amber, left, right]) => ({
    kind: 'level-crossing',
    id,
    lights: { amber: { pin: amber }, left: { pin: left }, right: { pin: right } },
    detectors: ['train'],
  }),
  (id, [top, green, yellow, red]) => ({
    kind: 'colour-light',
    id,
    aspects: 4,
    lamps: { upperYellow: { pin: top }, green: { pin: green }, yellow: { pin: yellow }, red: { pin: red } },
    passing: 'train',
  }),
  (id, [a, b]) => ({
    kind: 'beacons',
    id,
    lamps: [
      { id: 'a', pin: a },
      { id: 'b', pin: b },
    ],
    flash: 'double',
  }),
];

/** Two sites of different kinds on random pins, some lit when low, with random LEDs; inputs of their own. */
function randomLayout(dice: Dice): { layout: Layout; board: CompiledBoard } {
  const pins = shuffled(dice, ['D2', 'D3', 'D4', 'D5', 'D6', 'D7', 'D8', 'D9', 'D10', 'D12', 'A0', 'A1', 'A2', 'A3']);
  const kinds = shuffled(dice, KINDS).slice(0, 2);
  const sites = kinds.map((make, index) => ({
    ...make(`s${index}`, pins.slice(index * 6, index * 6 + 6)),
    name: `Site ${index}`,
    board: 'b',
    atNight: pick(dice, ['run', 'fault', 'safe', 'dark'] as const),
  }));
  const electrics = {
    usual: {
      red: { milliamps: dice.int(2, 20) },
      amber: { milliamps: dice.int(2, 20) },
      green: { milliamps: dice.int(2, 20) },
    },
  };
  const inputs = [
    { id: 'button', name: 'Button', board: 'b', pin: 'A4', indicator: { pin: 'A5' } },
    { id: 'train', name: 'Train', board: 'b', pin: 'D11' },
  ];
  return compiled(JSON.parse(JSON.stringify(sites), lowNowAndThen(dice)), { electrics, inputs });
}

function lowNowAndThen(dice: Dice) {
  return (key: string, value: unknown): unknown =>
    typeof value === 'object' && value !== null && 'pin' in value && key !== '' && dice.int(1, 3) === 1
      ? { ...value, activeLow: true }
      : value;
}

describe('random layouts', () => {
  it('have the worst current that the reference interpreter finds, for every line', () => {
    let shared = 0;
    for (let run = 0; run < RUNS; run += 1) {
      const dice = seededDice(4000 + run);
      const { layout, board } = randomLayout(dice);
      const { lines, loads } = budgetOf(layout, board);
      const lamp = new Map(loads.map((load) => [load.output, load.lamp]));
      const pinOf = new Map(
        lines.filter(({ is }) => is === 'pin').map((it) => [lamp.get(it.outputs[0] ?? -1), it.worst]),
      );
      const sums = lines.filter(({ is }) => is === 'group' || is === 'chip' || is === 'supply');
      const most = sums.map(() => 0);
      const met = () => sums.every((it, at) => !it.exact || Math.abs((most[at] ?? 0) + it.own - it.worst) < 1e-9);
      wander(dice, board.table, 60_000, (lit) => {
        for (const [at, { outputs }] of sums.entries()) {
          const now = outputs.reduce((sum, output) => {
            const index = lamp.get(output) ?? -1;
            return sum + (lit[index] ? (pinOf.get(index) ?? 0) : 0);
          }, 0);
          most[at] = Math.max(most[at] ?? 0, now);
        }
        return met();
      });
      if (sums.some((it) => !it.exact)) shared += 1;
      for (const [at, it] of sums.entries()) {
        const found = (most[at] ?? 0) + it.own;
        const where = `run ${run}, ${it.name}`;
        if (it.exact) expect(found, where).toBeCloseTo(it.worst, 9);
        else expect(found, where).toBeLessThanOrEqual(it.worst + 1e-9);
      }
    }
    expect(shared).toBeLessThan(RUNS / 2);
  });
});
