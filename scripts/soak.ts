/**
 * The long proofs: the same tests as in `npm test`, run for much longer.
 * `npm run soak -- [--hours H] [--runs N] [--unplugs U] [--cuts C] [--kills K] [--files F]
 * [--walks W] [--days D] [--seed S] [--only NAME]`;
 * NAME is edges, tables, flips, currents, loaders, kinds, probes, glow, line, fuzz, unplugs, cuts, kills, simavr, files,
 * walks or years. The results are written to build/soak.json.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const root = fileURLToPath(new URL('..', import.meta.url));
const { values } = parseArgs({
  options: {
    hours: { type: 'string', default: '24' },
    runs: { type: 'string', default: '100000' },
    unplugs: { type: 'string', default: '1000' },
    cuts: { type: 'string', default: '10000' },
    kills: { type: 'string', default: '500' },
    uploads: { type: 'string', default: '10000' },
    bytes: { type: 'string', default: '50000000' },
    days: { type: 'string', default: '30' },
    files: { type: 'string', default: '2000' },
    walks: { type: 'string', default: '1000' },
    seed: { type: 'string' },
    only: { type: 'string' },
  },
});

const PARTS: Readonly<Record<string, { readonly what: string; readonly files: readonly string[] }>> = {
  edges: { what: `${values.hours} emulated hours of the example`, files: ['test/timing/edges.test.ts'] },
  tables: { what: `${values.runs} random tables`, files: ['test/interpreter/agree.test.ts'] },
  currents: {
    what: 'the worst current of random tables and layouts, against everything that can be brought about',
    files: ['test/electrics/worst.test.ts', 'test/electrics/budget.test.ts'],
  },
  flips: {
    what: 'every bit of the table and of the sites turned over, every byte of the kept table spoilt',
    files: ['test/firmware/flips.test.ts', 'test/firmware/host/guard.test.ts'],
  },
  loaders: { what: 'the cable pulled inside every byte of a firmware write', files: ['test/loader'] },
  kinds: {
    what: 'a million events at sites of every kind, an hour over a sync wire',
    files: ['test/signals'],
  },
  probes: {
    what: 'every single wiring fault of the example and 1,000 double faults, probed by the firmware',
    files: ['test/lampcheck/self-check-faults.test.ts'],
  },
  glow: { what: 'an hour of the glow on the screen', files: ['test/panel/glow.test.ts'] },
  line: {
    what: `${values.uploads} uploads over a line with a fault in 1 of 100 bytes, the line at its limit`,
    files: ['test/line'],
  },
  fuzz: { what: `${values.bytes} random and mutated bytes into the core`, files: ['test/fuzz'] },
  unplugs: { what: `the cable pulled ${values.unplugs} times`, files: ['test/chaos/unplug.test.ts'] },
  cuts: {
    what: `the power cut at ${values.cuts} random cycles of keeps, and at every store operation`,
    files: ['test/firmware/power-cuts.test.ts', 'test/firmware/power-cut.test.ts'],
  },
  kills: { what: `the host killed ${values.kills} times`, files: ['test/chaos/kill.test.ts'] },
  simavr: { what: 'the shipped images in a second emulator', files: ['test/simavr'] },
  files: {
    what: `${values.files} layout files that went wrong, read, and opened in the panel`,
    files: ['test/mutations'],
  },
  walks: { what: `${values.walks} walks through edits, undo and redo`, files: ['test/panel/undo-walks.test.ts'] },
  years: { what: `${values.days} days of 16 sites with random nudges`, files: ['test/years'] },
};
const parts = Object.entries(PARTS).filter(([name]) => values.only === undefined || values.only === name);
if (parts.length === 0) {
  console.error(`There is no part "${values.only}": ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}

mkdirSync(`${root}build`, { recursive: true });
console.log(`${parts.map(([, { what }]) => what).join(', ')}; results in build/soak.json`);
const run = spawnSync(
  process.execPath,
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--reporter=default',
    '--reporter=json',
    '--outputFile.json=build/soak.json',
    '--testTimeout=36000000',
    ...parts.flatMap(([, { files }]) => files),
  ],
  {
    cwd: root,
    stdio: 'inherit',
    env: {
      ...process.env,
      AMBERWICK_HOURS: values.hours,
      AMBERWICK_RUNS: values.runs,
      AMBERWICK_UNPLUGS: values.unplugs,
      AMBERWICK_CUTS: values.cuts,
      AMBERWICK_KILLS: values.kills,
      AMBERWICK_UPLOADS: values.uploads,
      AMBERWICK_FUZZ_BYTES: values.bytes,
      AMBERWICK_DAYS: values.days,
      AMBERWICK_FILES: values.files,
      AMBERWICK_OPENED: values.files,
      AMBERWICK_WALKS: values.walks,
      AMBERWICK_EVENTS: '1000000',
      AMBERWICK_SYNC_MINUTES: '60',
      AMBERWICK_GLOW_MINUTES: '60',
      SOAK: '1',
      ...(values.seed ? { AMBERWICK_SEED: values.seed } : {}),
    },
  },
);
process.exitCode = run.status ?? 1;
