/** Each word of the vocabulary as a sentence without its full stop. Numbers are those on the wire, they count from 0. */
import { capital, uncapital } from '../findings/capital.ts';
import { CHAIN_BASE } from '../table/format.ts';
import { fromHex } from './fields.ts';
import { ask } from './requests.ts';
import { fine, type Result } from './result.ts';
import { DEEDS, FAULTS, FLAGS, SITE_FLAGS } from './vocabulary.ts';

/** SITE of a dial request from here on means the cycle of a group (firmware/PROTOCOL.md, `dial`). */
const GROUP_BASE = 128;
/** Of a longer list only this many are named. */
const MOST_NAMED = 12;

/** `18.0 s`, `0.75 s`, `3725.125 s`: moments get compared, so they stay plain seconds. */
export function secondsText(ms: number): string {
  const text = String(ms / 1000);
  return `${text.includes('.') ? text : `${text}.0`} s`;
}

/** Numbers of the bits that are set: `0, 3, 5`, or `none`. */
export function bitsText(bits: readonly boolean[]): string {
  const set = bits.flatMap((bit, index) => (bit ? [index] : []));
  if (set.length === 0) return 'none';
  const more = set.length - MOST_NAMED;
  return `${set.slice(0, MOST_NAMED).join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}

/** What the flags of a table mean, or `no flags`. */
export function flagsText(
  table: readonly { readonly key: string; readonly means: string }[],
  keys: ReadonlySet<string>,
): string {
  const set = table.filter(({ key }) => keys.has(key)).map(({ means }) => means);
  return set.length === 0 ? 'no flags' : set.join(', ');
}

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
const hex4 = (value: number): string => value.toString(16).toUpperCase().padStart(4, '0');
const imageName = (which = ''): string => (which === 'run' ? 'the running table' : 'the kept table');
const lampName = (lamp = ''): string => (lamp === 'all' ? 'all lamps' : `lamp ${lamp}`);
/** Outputs from 128 on are bits of the chain (firmware/PROTOCOL.md, chapter 2). */
const outputName = (output: number): string =>
  output < CHAIN_BASE ? `pin ${output}` : `chain bit ${output - CHAIN_BASE}`;
const measured = (value: number | null): string => (value === null ? 'not measured' : `${value} of 1023`);
const nameText = (name: string): string => (name === '' ? 'no name' : `the name ${JSON.stringify(name)}`);
const nameOf = (hex = ''): string => new TextDecoder().decode(fromHex(hex));

function dialName(site = '', dial = ''): string {
  return Number(site) >= GROUP_BASE
    ? `the cycle of group ${Number(site) - GROUP_BASE}`
    : `dial ${dial} of site ${site}`;
}

/** `auto` gives back what the host had taken. */
function switched(what: string, to = ''): string {
  return to === 'auto' ? `Leave ${what} to the board` : `Force ${what} ${to}`;
}

type Said = readonly [form: RegExp, say: (...groups: (string | undefined)[]) => string];

const NONE = /^$/;
const SITE = /^(\d+)$/;

/** Requests by word: the form of the arguments, and what they say. Questions begin with "Asks", orders are orders. */
const REQUESTS: Readonly<Record<string, Said>> = {
  who: [NONE, () => 'Asks who is there'],
  caps: [NONE, () => 'Asks how much the board holds'],
  state: [NONE, () => 'Asks how the board is'],
  begin: [
    /^(\d+) ([0-9A-F]{4})$/,
    (length, crc) => `Begin an upload of ${counted(Number(length), 'byte')} with CRC ${crc}`,
  ],
  part: [
    /^(\d+) ((?:[0-9A-F]{2})+)$/,
    (offset, hex = '') => `Stage ${counted(hex.length / 2, 'byte')} from byte ${offset} on`,
  ],
  start: [NONE, () => 'Run what was uploaded'],
  drop: [NONE, () => 'Give up the upload'],
  sum: [/^(run|kept)$/, (which) => `Asks for length and CRC of ${imageName(which)}`],
  read: [/^(run|kept) (\d+)$/, (which, offset) => `Asks for ${imageName(which)} from byte ${offset} on`],
  dial: [
    /^(\d+) (\d+)(?: (\d+))?$/,
    (site, dial, ms) =>
      ms === undefined
        ? `Asks for ${dialName(site, dial)}`
        : `Set ${dialName(site, dial)} to ${secondsText(Number(ms))}`,
  ],
  keep: [NONE, () => 'Keep what runs'],
  back: [NONE, () => 'Put back what is kept'],
  erase: [NONE, () => 'Forget what is kept and go dark'],
  run: [NONE, () => 'End the pause'],
  pause: [NONE, () => 'Pause'],
  step: [SITE, (site) => `End the running row of site ${site}`],
  again: [/^(\d+)?$/, (site) => `Start ${site === undefined ? 'all sites' : `site ${site}`} from the beginning`],
  hold: [/^(\d+) ([01])$/, (site, on) => (on === '1' ? `Hold site ${site} in its row` : `Let site ${site} go on`)],
  lamp: [
    /^(?:(\d+|all) (auto|on|off)|(\d+) on (\d+))$/,
    (lamp, to, timed, ms) =>
      timed === undefined
        ? switched(lampName(lamp), to)
        : `Force ${lampName(timed)} on for ${secondsText(Number(ms))}, then off`,
  ],
  master: [
    /^(auto|run|night|off|safe)$/,
    (to) => (to === 'auto' ? 'Leave the master state to the layout' : `Set the master state to ${to}`),
  ],
  press: [/^(\d+) (auto|on|off)$/, (input, to) => switched(`input ${input}`, to)],
  inputs: [NONE, () => 'Asks for the levels of the inputs'],
  tell: [/^([01])$/, (on) => (on === '1' ? 'Tell what happens' : 'Stop telling what happens')],
  snap: [NONE, () => 'Asks for a snapshot of the board'],
  site: [SITE, (site) => `Asks for a snapshot of site ${site}`],
  label: [
    /^([0-9A-F]{8}) (-|(?:[0-9A-F]{2})+)$/,
    (identity, name) => `Write the identity ${identity} and ${nameText(nameOf(name))}`,
  ],
  beat: [NONE, () => 'Says that the host is there'],
  pulse: [
    /^(\d+) ([01]) (\d+)$/,
    (output, level, ms) =>
      `Drive ${outputName(Number(output))} ${level === '1' ? 'high' : 'low'} for ${secondsText(Number(ms))}`,
  ],
  probe: [
    /^(\d+) ([01])$/,
    (pin, level) => `Measure ${outputName(Number(pin))}, whose lamp is lit when ${level === '1' ? 'high' : 'low'}`,
  ],
  supply: [NONE, () => 'Asks for the supply'],
  meter: [/^(\d+)$/, (millivolts) => `Calibrate the supply by a meter that shows ${millivolts} mV`],
  guard: [NONE, () => 'Asks what the guard has seen'],
};

/** What a request says; null where the word is not known or its arguments do not fit. */
export function requestText(word: string, args: readonly string[]): string | null {
  const said = Object.hasOwn(REQUESTS, word) ? REQUESTS[word] : undefined;
  const found = said?.[0].exec(args.join(' '));
  return said && found ? said[1](...found.slice(1)) : null;
}

type Told = (fields: readonly string[], args: readonly string[]) => Result<string>;

function told<T>(parsed: Result<T>, say: (value: T) => string): Result<string> {
  return parsed.ok ? fine(say(parsed.value)) : parsed;
}

/** The outcome of a word that is done once: its repeat is answered without fields. */
function toldOnce<T>(parsed: Result<T | null>, say: (value: T) => string): Result<string> {
  return told(parsed, (value) => (value === null ? 'Done already, when it was asked before' : say(value)));
}

/** Answers by the word of their request; words that are not here are answered without fields. */
const ANSWERS: Readonly<Record<string, Told>> = {
  who: (fields) =>
    told(ask.who().parse(fields), ({ protocol, firmware, store, chip, identity, shape, name }) => {
      const runs = shape === null ? 'no table' : `table ${hex4(shape)}`;
      return `An Amberwick board: protocol ${protocol}, firmware ${firmware}, store ${store}, chip ${chip}, identity ${identity}, ${runs}, ${nameText(name)}`;
    }),
  caps: (fields) =>
    told(ask.caps().parse(fields), (caps) => {
      const holds = [
        counted(caps.image, 'byte'),
        counted(caps.lamps, 'lamp'),
        counted(caps.sites, 'site'),
        counted(caps.inputs, 'input'),
        counted(caps.groups, 'group'),
        counted(caps.programs, 'program'),
        counted(caps.chips, 'chip'),
      ].join(', ');
      return `Holds ${holds}; requests of ${caps.request} characters, ${caps.part} bytes a part, ${caps.read} bytes a read`;
    }),
  state: (fields) =>
    told(ask.state().parse(fields), (state) => {
      const { seconds, cause, millivolts, stack, master, flags, badLines, keeps } = state;
      return `Up for ${seconds} s, started by ${cause}, supply ${millivolts} mV, ${counted(stack, 'byte')} of stack never used, master state ${master}, ${counted(badLines, 'line')} dropped, ${counted(keeps, 'keep')}; ${flagsText(FLAGS, flags)}`;
    }),
  part: (fields) => told(ask.part(0, new Uint8Array(1)).parse(fields), (offset) => `Staged from byte ${offset} on`),
  start: (fields) => toldOnce(ask.start().parse(fields), (shape) => `Table ${hex4(shape)} runs`),
  sum: (fields, [which]) =>
    told(
      ask.sum('run').parse(fields),
      ({ length, crc, shape }) =>
        `${capital(imageName(which))} has ${counted(length, 'byte')}, CRC ${hex4(crc)}, table ${hex4(shape)}`,
    ),
  read: (fields) =>
    told(
      ask.read('run', 0).parse(fields),
      ({ offset, bytes }) => `${counted(bytes.length, 'byte')} from byte ${offset} on`,
    ),
  dial: (fields, [site, dial]) =>
    told(ask.dial(0, 0).parse(fields), (ms) => `${capital(dialName(site, dial))} is ${secondsText(ms)}`),
  keep: (fields) => toldOnce(ask.keep().parse(fields), (keeps) => `Kept, for the ${ordinal(keeps)} time`),
  step: (fields, [site]) => toldOnce(ask.step(0).parse(fields), (row) => `Row ${row} of site ${site} ends`),
  inputs: (fields) =>
    told(
      ask.inputs().parse(fields),
      ({ levels, demands }) => `Active inputs: ${bitsText(levels)}; demands: ${bitsText(demands)}`,
    ),
  snap: (fields) =>
    told(
      ask.snap().parse(fields),
      ({ ms, lit, demands, master, flags }) =>
        `At ${secondsText(ms)}: lamps lit: ${bitsText(lit)}; demands: ${bitsText(demands)}; master state ${master}; ${flagsText(FLAGS, flags)}`,
    ),
  site: (fields, [site]) =>
    told(ask.site(0).parse(fields), ({ row, elapsed, flags, fault }) => {
      const reason = FAULTS.find(({ key }) => key === fault)?.reason ?? 'a fault that this version does not know';
      return `Site ${site} is in row ${row}, ${secondsText(elapsed)} after its begin; ${flagsText(SITE_FLAGS, flags)}; ${reason}`;
    }),
  probe: (fields, [pin]) =>
    told(ask.probe(0, true).parse(fields), ({ level, rest, lit }) => {
      const digital = level === null ? 'level not measured' : `level ${level === 1 ? 'high' : 'low'}`;
      return `${capital(outputName(Number(pin)))}: ${digital}, at rest ${measured(rest)}, driven ${measured(lit)}`;
    }),
  supply: (fields) =>
    told(ask.supply().parse(fields), ({ millivolts, least, reference }) => {
      const by = reference === null ? 'never calibrated' : `reference ${reference} mV`;
      return `The supply is ${millivolts} mV, lowest ${least} mV since it was asked last; ${by}`;
    }),
  meter: (fields) => told(ask.meter(0).parse(fields), (reference) => `Calibrated: the reference is ${reference} mV`),
  guard: (fields) =>
    told(ask.guard().parse(fields), ({ faults, site, fault, deeds, watchdogs, brownouts }) => {
      const reason = FAULTS.find(({ key }) => key === fault)?.reason ?? 'a fault that this version does not know';
      const last = site === null ? '' : `, the last one of site ${site}: ${reason}`;
      const did = deeds.size === 0 ? '' : `; ${flagsText(DEEDS, deeds)}`;
      return `Since its start ${counted(faults, 'fault')}${last}${did}; since power-on ${counted(watchdogs, 'restart')} by the watchdog, ${brownouts} by the supply`;
    }),
  beat: (fields) => told(ask.beat().parse(fields), (ms) => `The board time is ${secondsText(ms)}`),
};

/** What a fine answer to a request says; an error where its fields are not what the protocol says. */
export function answerText(fields: readonly string[], word: string, args: readonly string[]): Result<string> {
  if (Object.hasOwn(ANSWERS, word)) return (ANSWERS[word] as Told)(fields, args);
  const asked = requestText(word, args) ?? `"${word}"`;
  return told(ask.run().parse(fields), () => `Done: ${uncapital(asked)}`);
}

/** `1st`, `2nd`, `3rd`, `4th`, `11th`. */
function ordinal(count: number): string {
  const [tens, ones] = [Math.floor(count / 10) % 10, count % 10];
  const ending = tens === 1 ? undefined : ['th', 'st', 'nd', 'rd'][ones];
  return `${count}${ending ?? 'th'}`;
}
