/** The virtual board with lamps wired to it: what its pins read, its supply, what its lamps show. */
import { writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { CPU_HZ } from '../../electron/host/virtual/chips.ts';
import { Circuit } from '../../electron/host/virtual/circuit.ts';
import { GlowWatch } from '../../electron/host/virtual/glow-watch.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { onBoard, penmarrow } from '../../scripts/confusion/benches.ts';
import { EmulatedBoard } from '../../scripts/confusion/emulated.ts';
import { PLAIN } from '../../scripts/confusion/paper.ts';
import type { Glow } from '../../shared/electrics/model.ts';
import { ask } from '../../shared/link/requests.ts';
import { shippedFlash, storeWith } from '../timing/rig.ts';

const MS = CPU_HZ / 1000;
const MICROSECOND = CPU_HZ / 1e6;

function wired(faults: Parameters<EmulatedBoard['wire']>[1] = []) {
  const bench = penmarrow();
  const emulated = new EmulatedBoard(bench);
  emulated.wire(bench.loads, faults, PLAIN);
  return { ...bench, emulated, board: emulated.board };
}

describe('a board with its lamps', () => {
  test('measures that its supply sags when lamps are lit', () => {
    const { emulated, board, loads } = wired();
    emulated.wire(loads, [], { ...PLAIN, parts: { supplyOhms: 3 } });
    board.run(250 * MS);
    const dark = emulated.request(ask.supply())?.millivolts ?? 0;
    emulated.request(ask.master('auto'));
    board.run(500 * MS);
    const lit = emulated.request(ask.supply());
    // The board's 40 mA through 3 ohms, then some heads of 4 mA each as well; a step of the converter is 22 mV.
    expect(Math.abs(dark - 4880)).toBeLessThan(23);
    expect(dark - (lit?.millivolts ?? dark)).toBeGreaterThan(40);
    expect(dark - (lit?.least ?? 0)).toBeLessThan(200);
  });

  test('sags by a step that the data sheets allow to be computed: 200 mA through half an ohm', () => {
    const lamps = Array.from({ length: 10 }, (_, index) => ({
      id: `l${index}`,
      colour: 'red',
      pin: `D${2 + index}`,
      electrics: { milliamps: 20, resistor: 110 },
    }));
    const bench = onBoard(lamps, 'atmega328p', null);
    const circuit = new Circuit({ loads: bench.loads, faults: [] });
    const before = circuit.supply();
    for (const { output } of bench.loads) circuit.drive(output, 1, 0);
    const amps = circuit.network.lampAmps(() => 1, circuit.supply()).flat();
    const sum = amps.reduce((total, one) => total + one, 0);
    expect(sum).toBeGreaterThan(0.15);
    expect(before - circuit.supply()).toBeCloseTo(0.5 * sum, 2);
  });

  test('the same lamps at the same moments as without them', () => {
    const edges = (isWired: boolean) => {
      const bench = penmarrow();
      const emulated = new EmulatedBoard(bench);
      if (isWired) emulated.wire(bench.loads, [{ kind: 'short', lamp: 0 }], PLAIN);
      const seen: string[] = [];
      emulated.board.onPin = (pin, level, cycles) => seen.push(`${pin} ${level} ${cycles}`);
      emulated.request(ask.master('auto'));
      emulated.board.run(10_000 * MS);
      return seen;
    };
    const plain = edges(false);
    expect(plain.length).toBeGreaterThan(10);
    expect(edges(true)).toEqual(plain);
  });

  test('a meter at a pin shows what the wires do', () => {
    const { board, loads } = wired([{ kind: 'short', lamp: 0 }]);
    const at = (lamp: number) => board.pinVolts(loads[lamp]?.output ?? 0);
    expect(at(0)).toBeCloseTo(0, 2);
    expect(at(11)).toBeCloseTo(0, 2);
    // A pin of no lamp, pulled from outside.
    board.setInput(19, 1);
    expect(board.pinVolts(19)).toBeGreaterThan(4.9);
    board.setInput(19, 0);
    expect(board.pinVolts(19)).toBe(0);
  });

  test('what is wired from outside wins over the lamp', () => {
    const { emulated, board, loads } = wired();
    const green = loads[11];
    if (!green) throw new Error();
    expect(emulated.probe(green.output, false)?.rest).toBeGreaterThan(400);
    board.setInput(green.output, 1);
    expect(emulated.probe(green.output, false)?.rest).toBeGreaterThan(1015);
    board.setInput(green.output, null);
    expect(emulated.probe(green.output, false)?.rest).toBeLessThan(600);
  });

  test('in the undefined zone a pin reads as the test decides, or by chance, the same at each run', () => {
    const { emulated, loads, board } = wired();
    // D10: a green LED of two heads, about 2.3 V under the pull-up.
    const level = (undefinedZone: 'low' | 'high') => {
      emulated.wire(loads, [], { ...PLAIN, undefinedZone });
      return emulated.probe(10, false)?.level;
    };
    expect([level('low'), level('high')]).toEqual([0, 1]);
    const drawn = () => {
      board.connectCircuit({ loads, faults: [], undefinedZone: 7 });
      return Array.from({ length: 16 }, () => emulated.probe(10, false)?.level).join('');
    };
    const first = drawn();
    expect(first).toMatch(/0/);
    expect(first).toMatch(/1/);
    expect(drawn()).toBe(first);
  });
});

describe('a released wire', () => {
  test('goes on from the voltage that it had, also when what pulls it changes on the way', () => {
    const { loads } = penmarrow();
    const circuit = new Circuit({ loads, faults: [{ kind: 'open', lamp: 0 }], parts: { farads: 200e-12 } });
    const at = (microseconds: number) => microseconds * MICROSECOND;
    circuit.drive(2, 1, at(0));
    expect(circuit.volts(2, at(5))).toBeCloseTo(circuit.supply(), 3);
    circuit.drive(2, 'free', at(10));
    expect(circuit.volts(2, at(20))).toBeCloseTo(circuit.supply(), 2);
    circuit.drive(2, 0, at(30));
    circuit.drive(2, 'pulled', at(40));
    // 35 kilohm and 200 pF: 7 us.
    expect(circuit.volts(2, at(47)) / circuit.supply()).toBeCloseTo(1 - Math.exp(-1), 1);
    circuit.drive(2, 'free', at(47));
    const held = circuit.volts(2, at(47));
    expect(circuit.volts(2, at(100))).toBeCloseTo(held, 2);
  });

  test('is held by a neighbour that touches it', () => {
    const { loads } = penmarrow();
    const circuit = new Circuit({ loads, faults: [{ kind: 'bridged', lamp: 0, with: 1 }] });
    circuit.drive(3, 1, 0);
    circuit.drive(2, 'pulled', 0);
    expect(circuit.volts(2, 0)).toBeGreaterThan(4.3);
    expect(circuit.level(2, 0)).toBe(1);
    circuit.drive(3, 0, 10);
    expect(circuit.level(2, 10)).toBe(0);
  });
});

describe('what the lamps show', () => {
  test('is told when it changes, not more often than 30 times a second, and not in the blink of a probe', () => {
    const { emulated, board, loads } = wired();
    const circuit = board.connectCircuit({ loads, faults: [] });
    if (!circuit) throw new Error();
    const watch = new GlowWatch(board, circuit);
    let now = 0;
    const look = (later: number) => {
      now += later;
      return watch.look(now);
    };
    board.run(5 * MS);
    expect(
      look(100)
        ?.flat()
        .every((one) => one === 'dark'),
    ).toBe(true);
    for (const { output, activeLow } of loads) {
      emulated.probe(output, activeLow);
      expect(look(100)).toBeNull();
    }
    emulated.request(ask.lamp(11, 'on'));
    board.run(20 * MS);
    expect(look(40)?.[11]).toEqual(['lit']);
    emulated.request(ask.lamp(11, 'off'));
    board.run(20 * MS);
    expect(look(10)).toBeNull();
    expect(look(30)?.[11]).toEqual(['dark']);
  });

  test('a board in its thread tells it, with the faults in its wires, and is dark without power', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'amberwick-glow-'));
    const { table, loads } = penmarrow();
    const eepromFile = join(folder, 'board.eeprom');
    writeFileSync(eepromFile, storeWith({ ...table, sweep: 0 }));
    const board = new LiveBoard({ chip: table.chip, flash: shippedFlash(table.chip), eepromFile, speed: 5 });
    onTestFinished(async () => {
      await board.close();
      await rm(folder, { recursive: true, force: true });
    });
    await board.ready;
    const shows = (wanted: (glow: readonly (readonly Glow[])[]) => boolean) =>
      new Promise<void>((resolve) => {
        board.onGlow = (glow) => {
          if (glow && wanted(glow)) resolve();
        };
      });
    // Market Cross begins with Fore Street green and Quay Hill red; of the red of two heads one is open.
    const seen = shows((glow) => glow[2]?.join() === 'lit,lit' && glow[3]?.join() === 'dark,lit');
    board.connectCircuit({ loads, faults: [{ kind: 'open', lamp: 3, head: 0 }] });
    board.power(true);
    await seen;
    const dark = shows((glow) => glow.flat().every((one) => one === 'dark'));
    board.power(false);
    await dark;
    const none = new Promise<void>((resolve) => {
      board.onGlow = (glow) => glow === null && resolve();
    });
    board.connectCircuit(null);
    await none;
  });
});
