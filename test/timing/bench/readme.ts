/** The table of the README, from what was measured. */
import { hasPanel, panelRows } from './panel/table.ts';
import { type Result, Results } from './results.ts';

const BEGIN = '<!-- bench:begin -->';
const END = '<!-- bench:end -->';

/** When and under which load a part was measured. */
export interface Conditions {
  /** ISO date and time of its end. */
  readonly at: string;
  /** Load of the computer over one minute, before and after. */
  readonly loadBefore: number;
  readonly loadAfter: number;
  /** Emulated minutes of the lamp edges. */
  readonly minutes: number;
  /** SHA-256 of the images that were there: the shipped ones, one after the other. */
  readonly images: string;
}

/** What build/bench.json holds. */
export interface Told {
  readonly cpu: string;
  readonly cores: number;
  readonly node: string;
  readonly parts: Readonly<Record<string, Conditions>>;
  readonly results: readonly Result[];
}

/** `text` with what stands between the marks put anew; null without marks. */
export function renewed(text: string, made: string): string | null {
  const from = text.indexOf(BEGIN);
  const to = text.indexOf(END);
  if (from < 0 || to < from) return null;
  return text.slice(0, from) + made + text.slice(to + END.length);
}

/** What stands between the marks, the marks included. Throws where something has not been measured. */
export function benchTable(told: Told): string {
  const results = new Results(told.results);
  return [BEGIN, ...against(results, told), '', ...sizes(results), '', ...others(results, told), END].join('\n');
}

/** What is compared, by its name in the results. */
const WAYS = {
  ours: 'Amberwick',
  usual: 'usual program',
  'added-up': 'the same, times added up',
  'host-best': 'host-driven at best',
  'host-busy': 'host-driven, busy',
} as const;

type Cell = (way: string) => string;

function against(results: Results, { parts, cores }: Told): string[] {
  const row = (what: string, cell: Cell) => `| ${what} | ${Object.keys(WAYS).map(cell).join(' | ')} |`;
  const of =
    (name: string, unit: string): Cell =>
    (way) =>
      `${shown(results.value(`${name}-${way}`))} ${unit}`;
  const drift =
    (site: string): Cell =>
    (way) =>
      withError(results.value(`drift-${site}-${way}`), results.value(`drift-${site}-${way}-±`));
  // Of the host-driven chip there is nothing to say: it sleeps until a byte comes.
  const chip =
    (name: string, unit: string): Cell =>
    (way) =>
      way.startsWith('host') ? '' : of(name, unit)(way === 'ours' ? 'example' : way);
  const size =
    (name: string): Cell =>
    (way) =>
      of(name, 'bytes')(way === 'ours' ? 'atmega328p' : way.startsWith('host') ? 'host' : way);
  const interval = of('interval', 'ms');
  const beacons = drift('beacons');
  return [
    ...wrapped(
      `\`npm run bench\`, ${day(parts.usual?.at ?? '')}: ${parts.usual?.minutes} emulated minutes of the example (Amberwick:`,
      `${parts.firmware?.minutes}), the same crystal for all; ± are three standard errors:`,
    ),
    '',
    `| | ${Object.values(WAYS).join(' | ')} |`,
    '| --- | ---: | ---: | ---: | ---: | ---: |',
    row('worst edge against paper', of('edge', 'ms')),
    row('worst error of one time', interval),
    row('drift of Market Cross a day', drift('cross')),
    row('drift of the beacons a day', beacons),
    row('interrupts, share of all cycles', chip('interrupts', '%')),
    row('chip awake', chip('awake', '%')),
    row('one time round, mean', chip('loop', 'µs')),
    row('one time round, worst', chip('loop-worst', 'µs')),
    row('flash', size('flash')),
    row('static RAM', size('ram')),
    '',
    ...wrapped(
      'The *usual program* is ours, written well (`test/timing/baseline/usual.c`): a state and a transition for each aspect,',
      'elapsed times compared, nothing that waits, `since = now`. Its clock counts overflows of 1.024 ms, so a time that is',
      'noticed late is lost for good (how often depends on the times); *times added up* is the same with `since += time`, as',
      'careful people write it. Neither has a line, a conflict watch, a table or a store; two seconds more of green are an',
      'edit, a compilation and a load. One time round is a pass of its loop, for Amberwick the time from waking to sleep.',
      '*Host-driven* is a board that takes a byte for each lamp (`driven.c`); without its computer the lamps stay as they are.',
      'Its timers are late by 0 to 1 ms at best (a model); busy, they were late by',
      `${late(results, 'host-busy')}, measured at load ${shown(results.value('timers-load-host-busy'))} on ${cores} cores.`,
      'A byte waits up to 1 ms for its USB frame (a model). With timers set by deadlines the drift of the beacons a day is',
      `${beacons('host-best-deadline')}, busy ${beacons('host-busy-deadline')}, and the worst error of one time`,
      `${interval('host-best-deadline')}, busy ${interval('host-busy-deadline')}.`,
    ),
  ];
}

function late(results: Results, key: string): string {
  const of = (name: string) => shown(results.value(`timers-${name}-${key}`));
  return `${of('median')} ms in the median, ${of('99 %')} ms in one of a hundred, ${of('worst')} ms at worst`;
}

const TABLES = [
  ['example', 'the example, ATmega328P'],
  ['full-328', '16 sites, 64 lamps, ATmega328P'],
  ['full-2560', '32 sites, 128 lamps, ATmega2560'],
] as const;

function sizes(results: Results): string[] {
  const row = (what: string, cell: (key: (typeof TABLES)[number][0]) => string) =>
    `| ${what} | ${TABLES.map(([key]) => cell(key)).join(' | ')} |`;
  const of = (name: string, unit: string) => (key: string) => `${shown(results.value(`${name}-${key}`))} ${unit}`;
  const asked = (name: string, unit: string) => (key: string) =>
    `${shown(results.value(`${name}-${key}`))} / ${shown(results.value(`${name}-${key}-asked`))} ${unit}`;
  const chip = (key: string) => (key === 'full-2560' ? 'atmega2560' : 'atmega328p');
  return [
    'The firmware with small and with the largest tables (after the stroke: told all events and nudged 100 times a second):',
    '',
    `| | ${TABLES.map(([, what]) => what).join(' | ')} |`,
    '| --- | ---: | ---: | ---: |',
    row('worst edge against paper', asked('edge', 'µs')),
    row('interrupts, share of all cycles', asked('interrupts', '%')),
    row('chip awake', asked('awake', '%')),
    row('one time awake, mean', asked('loop', 'µs')),
    row('one time awake, worst', asked('loop-worst', 'µs')),
    row('flash', (key) => `${shown(results.value(`flash-${chip(key)}`))} bytes`),
    row('static RAM', (key) => `${shown(results.value(`ram-${chip(key)}`))} bytes`),
    row('stack, deepest', asked('stack', 'bytes')),
    row('stack never used after upload, keep and a minute', of('stack-free', 'bytes')),
    row(
      'upload into an empty slot; keep',
      (key) => `${shown(results.value(`upload-${key}`))} ms; ${shown(results.value(`keep-${key}`))} ms`,
    ),
    row('upload, bytes of table a second', of('upload-rate', 'B')),
    row('the same, share of what the line could carry', of('upload-payload', '%')),
    row('line to the board busy', of('upload-line', '%')),
    row('EEPROM busy, its limit', of('upload-eeprom', '%')),
  ];
}

function others(results: Results, { cpu, cores, node, parts }: Told): string[] {
  const value = (key: string) => shown(results.value(key));
  const load = (part: string) => Math.max(parts[part]?.loadBefore ?? 0, parts[part]?.loadAfter ?? 0);
  const mark = (part: string) => (load(part) > cores / 2 ? ` (machine busy, load ${shown(load(part))})` : '');
  return [
    '| what | value |',
    '| --- | ---: |',
    `| nudge: last byte of its line to the lamp, worst of 40 | ${value('nudge')} ms |`,
    `| self-check of the example's 14 lamps | ${value('self-check')} ms |`,
    `| lamps of one interval, greatest distance | ${value('edges-apart')} µs |`,
    `| emulator with the example, as fast as it goes | ${value('emulator')} times real time${mark('firmware')} |`,
    `| virtual board with the example at real time | ${value('live')} % of a core${mark('speed')} |`,
    `| read, compile, check and encode the example | ${value('compile')} ms${mark('speed')} |`,
    ...(hasPanel(results) ? panelRows(value, mark('panel')) : []),
    '',
    ...wrapped(
      'Board figures are emulated cycles, the same on every computer. The timers, the speed of emulator and compiler, and',
      `the panel are measured on a shared computer (${cpu}, ${cores} cores, Node ${node}).`,
    ),
  ];
}

/** Words in lines of 120 characters at most. */
function wrapped(...sentences: readonly string[]): string[] {
  const lines = [''];
  // A figure and its unit stay together.
  for (const word of sentences.join(' ').split(/(?<!\d) | (?!(?:ms|s|%)\b)/)) {
    const line = lines.at(-1) ?? '';
    if (line.length + 1 + word.length > 120) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines;
}

function day(iso: string): string {
  return new Date(iso).toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
}

/** A drift in ms, or in seconds where it is long; what its error hides is nothing. */
function withError(ms: number, error: number): string {
  if (Math.abs(ms) < 3 * error) return `none (± ${inTime(3 * error)})`;
  return inTime(ms);
}

function inTime(ms: number): string {
  return Math.abs(ms) >= 1000 ? `${shown(ms / 1000)} s` : `${shown(ms)} ms`;
}

/** Two figures after the point for small values, none for large ones. */
function shown(value: number): string {
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return value.toLocaleString('en-GB', { maximumFractionDigits: digits });
}
