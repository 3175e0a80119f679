/** The outputs of a board in rows, as they stand on it: digital pins along one edge, the others along the other. */
import type { Board } from '../../shared/layout/outputs.ts';
import { FIRST_BIT } from '../../shared/layout/wiring/numbers.ts';
import type { Output } from '../../shared/layout/wiring/outputs.ts';

export interface Row {
  readonly name: string;
  readonly outputs: readonly Output[];
}

/** First and last pin of each row. */
const PINS: Readonly<Record<Board['chip'], readonly (readonly [string, number, number])[]>> = {
  atmega328p: [
    ['Digital pins', 0, 13],
    ['Analogue pins', 14, 19],
  ],
  atmega2560: [
    ['Digital pins', 0, 13],
    ['Digital pins with further serial lines', 14, 21],
    ['Digital pins of the double row', 22, 37],
    ['Digital pins of the double row, continued', 38, 53],
    ['Analogue pins', 54, 69],
  ],
};

const BITS = 8;

export function pinRows(chip: Board['chip'], outputs: readonly Output[]): Row[] {
  return PINS[chip].map(([name, from, to]) => ({
    name,
    outputs: outputs.filter(({ output }) => output >= from && output <= to),
  }));
}

/** Neighbours that carry lamps of one site stand together, under its name. */
export interface Run {
  /** Null: no lamp, or one of no site. */
  readonly site: string | null;
  readonly outputs: readonly Output[];
}

export function runsOf(outputs: readonly Output[]): Run[] {
  const runs: { site: string | null; outputs: Output[] }[] = [];
  for (const output of outputs) {
    const site = output.use.is === 'lamp' ? output.use.lamp.site : null;
    const last = runs.at(-1);
    if (last && site !== null && last.site === site) last.outputs.push(output);
    else runs.push({ site, outputs: [output] });
  }
  return runs;
}

/** One for each chip of the chain, the nearest to the board first. */
export function chipRows(outputs: readonly Output[]): Row[] {
  const bits = outputs.filter(({ output }) => output >= FIRST_BIT);
  return Array.from({ length: Math.ceil(bits.length / BITS) }, (_, chip) => ({
    name: `Chip ${chip + 1}`,
    outputs: bits.slice(chip * BITS, (chip + 1) * BITS),
  }));
}
