/** Layouts on which the self-check is tried: the example, boards with lamps of every kind, and random ones. */
import { readFileSync } from 'node:fs';
import { loadsOf } from '../../shared/electrics/loads.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import type { BoardTable } from '../../shared/table/model.ts';

export interface Bench {
  readonly table: BoardTable;
  readonly loads: readonly Load[];
}

export function penmarrow(): Bench {
  return benchOf(readFileSync(new URL('../../shared/layout/examples/penmarrow.json', import.meta.url), 'utf8'));
}

export function benchOf(text: string): Bench {
  const { layout, findings } = parseLayout(text);
  if (!layout) throw new Error(JSON.stringify(findings));
  const compiled = compileLayout(layout);
  const [board] = compiled.boards;
  if (!board) throw new Error(JSON.stringify(compiled.findings));
  return { table: board.table, loads: loadsOf(layout, board) };
}

/** Draws a number from 0 to below `below`. */
export type Draw = (below: number) => number;

/** The same numbers for the same seed (mulberry32). */
export function drawFrom(seed: number): Draw {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

const COLOURS = ['red', 'amber', 'green', 'yellow', 'white', 'blue', 'warm-white'] as const;

/** How a lamp may be made, more often plainly than not. */
const MAKES: readonly ((draw: Draw) => object)[] = [
  () => ({}),
  () => ({}),
  () => ({}),
  (draw) => ({ electrics: { milliamps: 2 + draw(19) } }),
  () => ({ electrics: { count: 2 } }),
  () => ({ electrics: { count: 2, wired: 'series', forward: 2 } }),
  () => ({ electrics: { resistor: 'fitted' } }),
  () => ({ source: 'smallFilament', electrics: { milliamps: 15 } }),
  () => ({ electrics: { driver: 'transistor', volts: 12, count: 3, wired: 'series' } }),
];

/** Lamps on most pins, with lamps lit by low among them where `mixed`; on every other board also a chain. */
export function randomBench(draw: Draw, mixed: boolean): Bench {
  const isLarge = draw(4) === 0;
  const chained = draw(2) === 0;
  const first = isLarge ? 22 : 2;
  const analogue = isLarge ? 8 : 4;
  const pins = [
    ...Array.from({ length: 6 }, (_, index) => `D${first + index}`),
    ...(draw(3) === 0 ? ['D13'] : []),
    ...Array.from({ length: analogue }, (_, index) => `A${isLarge ? 4 + index : index}`),
  ];
  const isRegister = chained && draw(3) === 0;
  const lamps = pins.map((pin, index) => ({
    id: `l${index}`,
    colour: COLOURS[draw(COLOURS.length)],
    pin,
    ...MAKES[draw(MAKES.length)]?.(draw),
    ...(mixed && draw(3) === 0 ? { activeLow: true } : {}),
  }));
  const bits = (chained ? [0, 3, 5] : []).map((bit) => ({
    id: `b${bit}`,
    colour: COLOURS[draw(COLOURS.length)],
    bit,
    ...(isRegister ? { electrics: { driver: 'power-register' } } : {}),
  }));
  const chain = isLarge ? { data: 'D40', clock: 'D41', latch: 'D42' } : { data: 'D10', clock: 'D11', latch: 'D12' };
  return onBoard(
    [...lamps.map(plainTransistor), ...bits],
    isLarge ? 'atmega2560' : 'atmega328p',
    chained ? chain : null,
  );
}

const lamp = (id: string, pin: string, rest: object = {}) => ({ id, colour: 'amber', pin, ...rest });

/** Lamps of every kind on pins of every kind, for the published table. */
export function standingBench(): Bench {
  const lamps = [
    lamp('a0', 'A0', { colour: 'red' }),
    lamp('a1', 'A1', { colour: 'white' }),
    lamp('a2', 'A2', { electrics: { count: 2 } }),
    lamp('a3', 'A3', { electrics: { count: 2, wired: 'series', forward: 1.9 } }),
    lamp('a4', 'A4', { electrics: { milliamps: 15 } }),
    lamp('a5', 'A5', { source: 'smallFilament', electrics: { milliamps: 15 } }),
    lamp('d2', 'D2', { colour: 'green' }),
    lamp('d3', 'D3', { electrics: { driver: 'transistor', volts: 12, count: 3, wired: 'series' } }),
    lamp('d13', 'D13'),
    { id: 'b0', colour: 'red', bit: 0 },
  ];
  return onBoard(lamps, 'atmega328p', { data: 'D10', clock: 'D11', latch: 'D12' });
}

/** The same with a common anode: lamps that are lit by low. */
export function hangingBench(): Bench {
  const low = { activeLow: true };
  const lamps = [
    lamp('a0', 'A0', { colour: 'red', ...low }),
    lamp('a1', 'A1', { colour: 'white', ...low }),
    lamp('a2', 'A2', { electrics: { count: 2 }, ...low }),
    lamp('d2', 'D2', low),
  ];
  return onBoard(lamps, 'atmega328p', null);
}

/** Transistors switch to ground: their output is high for a lit lamp. */
function plainTransistor<T extends { electrics?: { driver?: string }; activeLow?: boolean }>(lamp: T): T {
  return lamp.electrics?.driver === 'transistor' ? { ...lamp, activeLow: false } : lamp;
}

/** A free program for the lamps: all that the compiler needs. */
export function onBoard(lamps: readonly object[], chip: string, chain: object | null): Bench {
  return benchOf(
    JSON.stringify({
      format: 'amberwick-layout',
      version: 1,
      name: 'Bench',
      scale: 'OO',
      practice: 'uk-1965',
      boards: [{ id: 'b', name: 'Bench board', chip, ...(chain ? { chain: { chips: 1, ...chain } } : {}) }],
      sites: [
        {
          kind: 'program',
          id: 'row',
          name: 'Row',
          board: 'b',
          lamps,
          dials: [{ id: 'rest', name: 'Rest', value: 30 }],
          rows: [{ do: 'after', dial: 'rest', show: {} }],
        },
      ],
    }),
  );
}
