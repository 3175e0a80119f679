/** The table of the README, from what was measured. */
import type { Results } from './results.ts';

const BEGIN = '<!-- bench:begin -->';
const END = '<!-- bench:end -->';

export interface Conditions {
  /** ISO date and time. */
  readonly at: string;
  /** Emulated minutes of the lamp edges. */
  readonly minutes: number;
  readonly cpu: string;
  readonly cores: number;
  readonly node: string;
  /** Load of the computer over one minute, before and after. */
  readonly loadBefore: number;
  readonly loadAfter: number;
}

/** `text` with what stands between the marks put anew; null without marks. */
export function renewed(text: string, made: string): string | null {
  const from = text.indexOf(BEGIN);
  const to = text.indexOf(END);
  if (from < 0 || to < from) return null;
  return text.slice(0, from) + made + text.slice(to + END.length);
}

/** What stands between the marks, the marks included. */
export function benchTable(results: Results, conditions: Conditions): string {
  return [BEGIN, ...against(results, conditions), '', ...sizes(results), '', ...others(results, conditions), END].join(
    '\n',
  );
}

const WAYS = ['ours', 'usual', 'added-up', 'host', 'host-busy'] as const;

function against(results: Results, { at, minutes }: Conditions): string[] {
  const row = (what: string, cell: (way: (typeof WAYS)[number]) => string) =>
    `| ${what} | ${WAYS.map(cell).join(' | ')} |`;
  const of =
    (name: string, unit: string, missing: string | null = null) =>
    (way: (typeof WAYS)[number]) =>
      missing !== null && way.startsWith('host') ? missing : `${shown(results.value(`${name}-${way}`))} ${unit}`;
  const drift = (site: string) => (way: (typeof WAYS)[number]) =>
    withError(results.value(`drift-${site}-${way}`), results.value(`drift-${site}-${way}-±`));
  const firmware = (name: string, key: string, unit: string) => (way: (typeof WAYS)[number]) => {
    if (way === 'ours') return `${shown(results.value(`${name}-${key}`))} ${unit}`;
    return of(name, unit, '')(way);
  };
  return [
    `${minutes} emulated minutes of the example, the same crystal for all, measured ${day(at)} by \`npm run bench\`:`,
    '',
    '| | Amberwick | usual program | the same, times added up | host-driven | host-driven, computer busy |',
    '| --- | ---: | ---: | ---: | ---: | ---: |',
    row('worst edge against paper', of('edge', 'ms')),
    row('worst error of one time', of('interval', 'ms')),
    row('drift of Market Cross a day', drift('cross')),
    row('drift of the beacons a day', drift('beacons')),
    row('interrupts, share of all cycles', firmware('interrupts', 'example', '%')),
    row('chip awake', firmware('awake', 'example', '%')),
    row('one time round, mean', firmware('loop', 'example', 'µs')),
    row('one time round, worst', firmware('loop-worst', 'example', 'µs')),
    row('flash', firmware('flash', 'atmega328p', 'bytes')),
    row('static RAM', firmware('ram', 'atmega328p', 'bytes')),
    row('a green two seconds longer', (way) => LONGER[way]),
    row('without the computer', (way) => (way.startsWith('host') ? 'lamps stay as they are' : 'runs on')),
    '',
    'The *usual program* is ours, written well (`test/timing/baseline/usual.c`): a state and a transition for each aspect,',
    'elapsed times compared, nothing that waits, `since = now`. Its clock counts overflows of 1.024 ms, so a time that is',
    'noticed late is lost for good. *Times added up* is the same with `since += time`, as careful people write it: it does',
    'not drift. It is far smaller than the firmware, and has no line, no conflict watch, no store and no table. *Host-driven* is a',
    `board that takes a byte for each lamp (\`driven.c\`); the timers of the computer were late by ${late(results, 'host')},`,
    `and with ${'busy threads'} by ${late(results, 'host-busy')}; a byte waits up to 1 ms for its USB frame (a model). Set by`,
    `deadlines its lamps do not drift either, but single times are wrong by up to ${shown(results.value('interval-host-deadline'))} ms`,
    `(busy: ${shown(results.value('interval-host-busy-deadline'))} ms).`,
  ];
}

const LONGER = {
  ours: 'turn the dial',
  usual: 'edit, compile, load',
  'added-up': 'edit, compile, load',
  host: 'change the program',
  'host-busy': 'change the program',
} as const;

function late(results: Results, key: string): string {
  const of = (name: string) => shown(results.value(`timers-${name}-${key}`));
  return `${of('median')} ms (median), ${of('99 %')} ms (99 %), ${of('worst')} ms (worst)`;
}

const TABLES = [
  ['example', 'flash-atmega328p', 'the example, ATmega328P'],
  ['full-328', 'flash-atmega328p', '16 sites, 64 lamps, ATmega328P'],
  ['full-2560', 'flash-atmega2560', '32 sites, 128 lamps, ATmega2560'],
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
    `| | ${TABLES.map(([, , what]) => what).join(' | ')} |`,
    '| --- | ---: | ---: | ---: |',
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
    row('upload, bytes of table a second', of('upload-rate', '')),
    row('the same, share of what the line could carry', of('upload-payload', '%')),
    row('line to the board busy', of('upload-line', '%')),
    row('EEPROM busy, its limit', of('upload-eeprom', '%')),
  ];
}

function others(results: Results, { cpu, cores, node, loadBefore, loadAfter }: Conditions): string[] {
  const value = (key: string) => shown(results.value(key));
  const load = `load ${shown(loadBefore)} to ${shown(loadAfter)} on ${cores} cores`;
  return [
    '| what | value |',
    '| --- | ---: |',
    `| nudge: last byte of its line to the lamp, worst of 40 | ${value('nudge')} ms |`,
    `| self-check of the example's 14 lamps | ${value('self-check')} ms |`,
    `| lamps of one interval, greatest distance | ${value('edges-apart')} µs |`,
    `| emulator with the example, as fast as it goes | ${value('emulator')} times real time |`,
    `| virtual board with the example at real time | ${value('live')} % of a core |`,
    `| read, compile, check and encode the example | ${value('compile')} ms |`,
    '',
    `Board figures are emulated cycles, the same on every computer. The last three and the timers are by the clock of a shared`,
    `computer (${cpu}, Node ${node}, ${load}${loadBefore > cores / 2 ? ': the machine was busy' : ''}).`,
  ];
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
