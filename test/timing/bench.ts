/**
 * `npm run bench [-- --minutes M] [--write]`: the firmware measured against the usual ways, now and here. Board
 * figures are in emulated cycles and the same on every computer; those by the clock of this computer are not.
 * Results are printed and written to build/bench.json; `--write` puts the table into README.md, too, and `--last`
 * does only that, with the results that are there.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { load, memory, nudges, selfCheck, uploading } from './bench/firmware.ts';
import { largest } from './bench/largest.ts';
import { benchTable, type Conditions, renewed } from './bench/readme.ts';
import { type Result, Results } from './bench/results.ts';
import { firmwareEdges, hostEdges, usualEdges } from './bench/schedules.ts';
import { compiler, live } from './bench/speed.ts';
import { penmarrowBoard, withoutSweep } from './example.ts';

/** The firmware sleeps most of the time, so it can be measured for longer: a drift near nothing takes time to tell. */
const FIRMWARE_LONGER = 6;
/** How long the computer's timers are measured, without and with load. */
const TIMER_SECONDS = 20;

/** What build/bench.json holds. */
interface Told extends Conditions {
  readonly results: readonly Result[];
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const file = `${root}build/bench.json`;
const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '5' },
    write: { type: 'boolean', default: false },
    last: { type: 'boolean', default: false },
  },
});
const minutes = Number(values.minutes);
if (!(minutes >= 2)) {
  console.error('--minutes: at least 2, so that each site goes round.');
  process.exit(2);
}

if (!values.last) {
  const told = await measured();
  mkdirSync(`${root}build`, { recursive: true });
  writeFileSync(file, `${JSON.stringify(told, null, 2)}\n`);
}
if (values.write || values.last) writeTable(JSON.parse(readFileSync(file, 'utf8')));

async function measured(): Promise<Told> {
  const results = new Results();
  const table = withoutSweep(penmarrowBoard().table);
  const loadBefore = loadavg()[0] ?? 0;
  // Timers first, as a computer that has just emulated for minutes is another one.
  await hostEdges(results, table, minutes, TIMER_SECONDS);
  firmwareEdges(results, table, FIRMWARE_LONGER * minutes);
  for (const name of ['usual', 'added-up'] as const) usualEdges(results, name, table, minutes);
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
  return {
    at: new Date().toISOString(),
    minutes,
    firmwareMinutes: FIRMWARE_LONGER * minutes,
    cpu: cpus()[0]?.model ?? '',
    cores: availableParallelism(),
    node: process.version,
    loadBefore,
    loadAfter: loadavg()[0] ?? 0,
    results: results.list,
  };
}

function writeTable(told: Told): void {
  const readme = `${root}README.md`;
  const text = renewed(readFileSync(readme, 'utf8'), benchTable(new Results(told.results), told));
  if (text === null) {
    console.error('README.md has no marks for the table.');
    process.exitCode = 1;
  } else writeFileSync(readme, text);
}
