/**
 * `npm run bench [-- --minutes M] [--only PART] [--write]`: the firmware measured against the usual ways, now and here.
 * Board figures are in emulated cycles and the same on every computer; those by the clock of this computer are not.
 * Results are printed and written to build/bench.json. `--only` measures one part (host, usual, firmware, tables,
 * speed, panel) anew and keeps the rest; `--hours` is the length of the panel's emulated evening; `--write` puts the
 * table into README.md, too; `--last` does only that.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { load, memory, nudges, selfCheck, uploading } from './bench/firmware.ts';
import { largest, onPaper } from './bench/largest.ts';
import { panelFrames } from './bench/panel/frames.ts';
import { evening } from './bench/panel/memory.ts';
import { panelStart } from './bench/panel/start.ts';
import { benchTable, type Conditions, renewed, type Told } from './bench/readme.ts';
import { Results } from './bench/results.ts';
import { firmwareEdges, hostEdges, usualEdges } from './bench/schedules.ts';
import { compiler, live } from './bench/speed.ts';
import { penmarrowBoard, withoutSweep } from './example.ts';
import { PENMARROW } from './penmarrow.ts';

/** The firmware sleeps most of the time, so it can be measured for longer: a drift near nothing takes time to tell. */
const FIRMWARE_LONGER = 6;
/** How long the computer's timers are measured, without and with load. */
const TIMER_SECONDS = 20;
/** Long enough for each transition of the example. */
const LOAD_MS = 45_000;

const root = fileURLToPath(new URL('../..', import.meta.url));
const file = `${root}build/bench.json`;
const readme = `${root}README.md`;
const table = withoutSweep(penmarrowBoard().table);
const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '5' },
    only: { type: 'string' },
    hours: { type: 'string', default: '4' },
    write: { type: 'boolean', default: false },
    last: { type: 'boolean', default: false },
  },
});
const minutes = Number(values.minutes);

interface Part {
  /** Emulated minutes of lamp edges, 0 for none. */
  readonly minutes: number;
  /** True: what it finds is of the shipped images, which must not change meanwhile. */
  readonly ofImages?: true;
  readonly run: (results: Results) => void | Promise<void>;
}

const PARTS: Readonly<Record<string, Part>> = {
  // First, as a computer that has just emulated for minutes is another one.
  host: { minutes, run: (results) => hostEdges(results, table, minutes, TIMER_SECONDS) },
  usual: {
    minutes,
    run: (results) => {
      for (const name of ['usual', 'added-up'] as const) usualEdges(results, name, table, minutes);
    },
  },
  firmware: {
    minutes: FIRMWARE_LONGER * minutes,
    ofImages: true,
    run: (results) => firmwareEdges(results, table, FIRMWARE_LONGER * minutes),
  },
  tables: { minutes: 0, ofImages: true, run: tables },
  speed: {
    minutes: 0,
    run: (results) => {
      compiler(results);
      return live(results, table);
    },
  },
  panel: {
    minutes: 0,
    run: async (results) => {
      await panelStart(results);
      await panelFrames(results);
      await evening(results, Number(values.hours));
    },
  },
};

const chosen = Object.entries(PARTS).filter(([name]) => values.only === undefined || values.only === name);
if (!(minutes >= 2) || chosen.length === 0) {
  console.error(`--minutes: at least 2, so that each site goes round; --only: ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}
if (!values.last) await measureAll();
if (values.write || values.last) writeTable();

async function tables(results: Results): Promise<void> {
  memory(results);
  load(results, 'example', 'the example', table, PENMARROW, LOAD_MS);
  await uploading(results, 'example', 'the example', table);
  for (const [key, chip] of [
    ['full-328', 'atmega328p'],
    ['full-2560', 'atmega2560'],
  ] as const) {
    const full = largest(chip);
    load(results, key, `the largest table, ${chip}`, full, onPaper(full), LOAD_MS);
    await uploading(results, key, `the largest table, ${chip}`, full);
  }
  nudges(results, table);
  selfCheck(results, table);
}

/** Written after each part, so that nothing is lost when a later one is broken off. */
async function measureAll(): Promise<void> {
  const before = values.only !== undefined && existsSync(file) ? told() : null;
  const results = new Results(before?.results);
  const parts: Record<string, Conditions> = { ...before?.parts };
  for (const [name, part] of chosen) {
    console.log(`\n== ${name}`);
    const [loadBefore, image] = [load1(), images()];
    results.begin(name);
    await part.run(results);
    if (part.ofImages && images() !== image) throw new Error('the firmware was built anew meanwhile: measure again');
    const at = new Date().toISOString();
    parts[name] = { at, loadBefore, loadAfter: load1(), minutes: part.minutes, images: image };
    const computer = { cpu: cpus()[0]?.model ?? '', cores: availableParallelism(), node: process.version };
    mkdirSync(`${root}build`, { recursive: true });
    writeFileSync(file, `${JSON.stringify({ ...computer, parts, results: results.list } satisfies Told, null, 2)}\n`);
  }
}

function told(): Told {
  return JSON.parse(readFileSync(file, 'utf8'));
}

function writeTable(): void {
  const measured = told();
  // The rows of the panel may be left out.
  const missing = Object.keys(PARTS).filter((name) => name !== 'panel' && !(name in measured.parts));
  if (missing.length > 0) {
    console.error(`The table needs every part, and these were not measured here yet: ${missing.join(', ')}.`);
    process.exitCode = 1;
    return;
  }
  const text = renewed(readFileSync(readme, 'utf8'), benchTable(measured));
  if (text === null) {
    console.error('README.md has no marks for the table.');
    process.exitCode = 1;
  } else writeFileSync(readme, text);
}

function load1(): number {
  return loadavg()[0] ?? 0;
}

/** SHA-256 of the shipped images. */
function images(): string {
  const hash = createHash('sha256');
  for (const chip of ['atmega328p', 'atmega2560']) {
    hash.update(readFileSync(`${root}firmware/images/amberwick-${chip}.hex`));
  }
  return hash.digest('hex');
}
