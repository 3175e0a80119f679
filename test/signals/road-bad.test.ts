/** Whatever stands in a crossing or a shuttle of a file: findings, never a throw, and no table that a board refuses. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { checkTable } from '../../shared/table/check.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { type Dice, seededDice } from '../fixtures/dice.ts';
import { gasworks, input, schoolLane, seaWall, townHall, townLayout } from './road-site.ts';

// biome-ignore lint/suspicious/noExplicitAny: wrong things are put in on purpose.
type Loose = any;

const INPUTS = ['button', 'down', 'up', 'kerb', 'zone'].map((id, index) => input(id, `A${index}`));
const PRACTICES = ['uk-today', 'uk-1965', 'usa-today', 'germany-today'];

const SITES: Readonly<Record<string, () => Loose>> = {
  pelican: () => townHall(),
  crossing: () => schoolLane({ figures: 'near', kerbDetectors: ['kerb'], onCrossingDetectors: ['zone'] }),
  'level-crossing': () => gasworks({ quiet: { least: 20, most: 60 }, clearAfter: 2 }),
  shuttle: () => {
    const site: Loose = seaWall({ length: 40 });
    site.ends[0].detector = 'up';
    site.ends[1].detector = 'down';
    return site;
  },
};

/** The times that each kind can name, beside those that it does. */
const TIMES: Readonly<Record<string, readonly string[]>> = {
  pelican: [
    'vehicleGreen',
    'amber',
    'allRed',
    'steadyGreen',
    'heldFlashing',
    'flashing',
    'clearance',
    'flashOn',
    'flashOff',
  ],
  crossing: [
    'vehicleGreen',
    'amber',
    'allRedBefore',
    'walk',
    'clearance',
    'extension',
    'allRedAfter',
    'redWithAmber',
    'flashOn',
  ],
  'level-crossing': ['amber', 'leastRed', 'passing', 'clearAfter', 'flashOn', 'flashOff', 'startDelay'],
  shuttle: ['length', 'speed', 'allRed', 'minGreen', 'gap', 'amber', 'redWithAmber', 'startDelay'],
};

/** Compiles; whatever comes out must be fit for a board. The number of boards without errors. */
function compiled(layout: object): number {
  const read = readLayout(structuredClone(layout));
  if (read.layout === null) return 0;
  const { boards, findings } = compileLayout(read.layout);
  if (boards.length === 0) expect(findings.some((it) => it.severity === 'error')).toBe(true);
  for (const { table } of boards) {
    expect(checkTable(table)).toEqual([]);
    expect(encodeTable(table).bytes).not.toBeNull();
  }
  return boards.length;
}

function pathsOf(value: unknown, path: readonly (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [[...path]];
  const inner = Object.entries(value).flatMap(([key, item]) => pathsOf(item, [...path, key]));
  return path.length === 0 ? inner : [[...path], ...inner];
}

for (const [kind, make] of Object.entries(SITES)) {
  it(`${kind}: any value at any place`, () => {
    const values = fc.oneof(fc.jsonValue(), fc.constantFrom('up', 'D2', 0, 0.01, 1e9, -1, '', [], ['up', 'up'], {}));
    fc.assert(
      fc.property(fc.constantFrom(...pathsOf(make())), values, (path, value) => {
        const site = make();
        const last = path.at(-1) ?? '';
        const place = path.slice(0, -1).reduce((at: Loose, step) => at[step], site);
        place[last] = value;
        compiled(townLayout({ sites: [site], inputs: INPUTS }));
      }),
      { numRuns: 150, seed: 5 },
    );
  });

  it(`${kind}: any times, in any practice`, () => {
    let good = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const dice = seededDice(seed);
      const site = make();
      for (const field of TIMES[kind] ?? []) if (dice.int(0, 2) === 0) site[field] = someTime(dice);
      const practice = PRACTICES[dice.int(0, PRACTICES.length - 1)] ?? '';
      good += compiled(townLayout({ sites: [site], inputs: INPUTS, practice }));
    }
    // Some of them are outside what a board holds, many are not.
    expect(good).toBeGreaterThan(10);
    expect(good).toBeLessThan(120);
  });
}

function someTime(dice: Dice): number {
  const [least, most] = (
    [
      [0, 50],
      [50, 500],
      [500, 6000],
      [6000, 50_000],
    ] as const
  )[dice.int(0, 3)] ?? [0, 1];
  return dice.int(least, most) / 100;
}
