/**
 * `npm run bench [-- --minutes M] [--write]`: the firmware measured against the usual ways, now and here. Board
 * figures are in emulated cycles and the same on every computer; those by the clock of this computer are not.
 * Results are printed and written to build/bench.json; `--write` puts the table into README.md, too.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { load, memory, nudges, selfCheck, uploading } from './bench/firmware.ts';
import { largest } from './bench/largest.ts';
import { benchTable, renewed } from './bench/readme.ts';
import { Results } from './bench/results.ts';
import { firmwareEdges, hostEdges, usualEdges } from './bench/schedules.ts';
import { compiler, live } from './bench/speed.ts';
import { penmarrowBoard, withoutSweep } from './example.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { values } = parseArgs({
  options: { minutes: { type: 'string', default: '5' }, write: { type: 'boolean', default: false } },
});
const minutes = Number(values.minutes);
if (!(minutes >= 2)) {
  console.error('--minutes: at least 2, so that each site goes round.');
  process.exit(2);
}

const results = new Results();
const table = withoutSweep(penmarrowBoard().table);
const loadBefore = loadavg()[0] ?? 0;

firmwareEdges(results, table, minutes);
for (const name of ['usual', 'added-up'] as const) usualEdges(results, name, table, minutes);
await hostEdges(results, table, minutes, 20);
memory(results);
load(results, 'example', 'the example', table, 45_000);
for (const [key, chip] of [
  ['full-328', 'atmega328p'],
  ['full-2560', 'atmega2560'],
] as const) {
  load(results, key, `the largest table, ${chip}`, largest(chip), 45_000);
  await uploading(results, key, `the largest table, ${chip}`, largest(chip));
}
await uploading(results, 'example', 'the example', table);
nudges(results, table);
selfCheck(results, table);
compiler(results);
await live(results, table);

const at = new Date().toISOString();
const computer = {
  cpu: cpus()[0]?.model ?? '',
  cores: availableParallelism(),
  node: process.version,
  loadBefore,
  loadAfter: loadavg()[0] ?? 0,
};
mkdirSync(`${root}build`, { recursive: true });
const told = { at, computer, minutes, results: results.list };
writeFileSync(`${root}build/bench.json`, `${JSON.stringify(told, null, 2)}\n`);

if (values.write) {
  const file = `${root}README.md`;
  const text = renewed(readFileSync(file, 'utf8'), benchTable(results, { at, minutes, ...computer }));
  if (text === null) {
    console.error('README.md has no marks for the table.');
    process.exitCode = 1;
  } else writeFileSync(file, text);
}
