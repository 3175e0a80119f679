/** Loads for the tests of the lamp check, and a layout whose wires go where the test says. */
import type { Load } from '../../shared/electrics/model.ts';
import type { Answer } from '../../shared/lampcheck/check.ts';

const COLOURS = ['red', 'amber', 'green'] as const;

/** `count` lamps in heads of three, four heads a site, on pins 2 and up. */
export function someLoads(count: number, change: (load: Load) => Partial<Load> = () => ({})): Load[] {
  return Array.from({ length: count }, (_, lamp) => {
    const head = Math.floor(lamp / 3);
    const site = Math.floor(head / 4);
    const colour = COLOURS[lamp % 3] ?? 'red';
    const load: Load = {
      lamp,
      output: lamp + 2,
      outputName: `D${lamp + 2}`,
      site: `site-${site}`,
      siteName: `Site ${site}`,
      label: `Head ${head}`,
      colour,
      path: `sites[${site}].heads[${head % 4}].lamps.${colour}`,
      activeLow: false,
      wire: colour === 'amber' ? 'yellow' : colour,
      heads: [{ id: `head-${head}`, name: `Head ${head}` }],
      circuit: {
        driver: 'direct',
        source: 'led',
        volts: 5,
        forward: 2,
        milliamps: 8,
        count: 1,
        wired: 'parallel',
        resistor: 390,
        isGiven: false,
      },
    };
    return { ...load, ...change(load) };
  });
}

/** What really hangs on the outputs: for each output the lamps that light, by number. */
export type Wires = ReadonlyMap<number, readonly number[]>;

/** What somebody who looks well and tells what is there answers. */
export function honest(loads: readonly Load[], load: Load, wires: Wires): Answer {
  const lit = wires.get(load.output) ?? [];
  const others = loads.filter(({ lamp }) => lamp !== load.lamp && lit.includes(lamp));
  if (lit.length === 0) return { result: 'dark' };
  if (!lit.includes(load.lamp)) return { result: 'wrong', saw: others };
  return others.length === 0 ? { result: 'right' } : { result: 'two', saw: others };
}

/** Everything at its planned output. */
export function planned(loads: readonly Load[]): Map<number, readonly number[]> {
  return new Map(loads.map(({ output, lamp }) => [output, [lamp]]));
}

/** The same lamps after a re-plan. */
export function moved(loads: readonly Load[], outputs: ReadonlyMap<string, number>): Load[] {
  return loads.map((load) => {
    const output = outputs.get(load.path) ?? load.output;
    return { ...load, output, outputName: `D${output}` };
  });
}

/** The n-th minute of an evening. */
export function minute(n: number): string {
  return new Date(Date.UTC(2026, 10, 20, 19) + n * 60_000).toISOString();
}
