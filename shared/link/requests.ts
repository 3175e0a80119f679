/** Every request of the protocol: how to ask, and what the answer says. Times are ms. */
import type {
  BoardState,
  Caps,
  GuardRecord,
  ImagePart,
  ImageSum,
  InputLevels,
  PinReading,
  SiteSnapshot,
  Snapshot,
  Supply,
  Who,
} from './answers.ts';
import { faultOf, refusal } from './codes.ts';
import { Fields, type Master, toHex } from './fields.ts';
import type { AnswerLine } from './line.ts';
import { fine, misunderstood, type Result } from './result.ts';
import { DEEDS, FLAGS, SITE_FLAGS, VERBS } from './vocabulary.ts';

export type * from './answers.ts';

/** Which image of the board. */
export type Which = 'run' | 'kept';
export type Switch = 'auto' | 'on' | 'off';

/** A request before it has a sequence number. */
export interface Request<T> {
  readonly word: string;
  readonly args: readonly (string | number)[];
  /** Answered when the work is done, not at once. */
  readonly slow: boolean;
  /** A repeat is answered without fields and not done again. */
  readonly once: boolean;
  readonly parse: (fields: readonly string[]) => Result<T>;
}

/** What a request came to, from the answer with its number. */
export function readAnswer<T>(request: Request<T>, { outcome }: AnswerLine): Result<T> {
  if (outcome.ok) return request.parse(outcome.fields);
  return { ok: false, error: refusal(outcome.code, outcome.place, outcome.reason) };
}

/** SITE of a dial request that means the cycle of group 0. */
const GROUP_BASE = 128;
const NAME_BYTES = 16;

function request<T>(
  word: string,
  args: readonly (string | number)[],
  parse: (fields: Fields) => Result<T>,
): Request<T> {
  const verb = VERBS.find((entry) => entry.word === word);
  const [slow, once] = [verb?.slow ?? false, verb?.once ?? false];
  return { word, args, slow, once, parse: (fields) => parse(new Fields(fields)) };
}

/** A request whose answer has no fields. */
function plain(word: string, args: readonly (string | number)[] = []): Request<null> {
  return request(word, args, (fields) => fields.finish(null));
}

/** A request done once: a repeat is answered without fields, which reads as null. */
function onceOnly<T>(
  word: string,
  args: readonly (string | number)[],
  parse: (fields: Fields) => Result<T>,
): Request<T | null> {
  const asked = request<T | null>(word, args, parse);
  return { ...asked, parse: (fields) => (fields.length === 0 ? fine(null) : asked.parse(fields)) };
}

const hex4 = (value: number) => toHex([value >> 8, value & 0xff]);

/** Builders, one for each word. */
export const ask = {
  who: () =>
    request<Who>('who', [], (fields) => {
      const greeting = fields.text('amberwick');
      const who = {
        protocol: fields.decimal('protocol'),
        firmware: fields.text('firmware'),
        store: fields.decimal('store'),
        chip: fields.text('chip'),
        identity: toHex(fields.bytes('identity')),
        shape: fields.hexOrNone('shape', 4),
        name: new TextDecoder().decode(fields.bytes('name')),
      };
      // Only the order of the first fields is promised for ever.
      return greeting === 'amberwick' ? fields.finish(who, true) : misunderstood(`it greets as "${greeting}"`);
    }),
  caps: () =>
    request<Caps>('caps', [], (fields) => {
      const image = fields.decimal('image');
      const lamps = fields.decimal('lamps');
      const sites = fields.decimal('sites');
      const inputs = fields.decimal('inputs');
      const groups = fields.decimal('groups');
      const programs = fields.decimal('programs');
      const chips = fields.decimal('chips');
      const longest = fields.decimal('request');
      const part = fields.decimal('part');
      const read = fields.decimal('read');
      return fields.finish({ image, lamps, sites, inputs, groups, programs, chips, request: longest, part, read });
    }),
  state: () =>
    request<BoardState>('state', [], (fields) =>
      fields.finish({
        seconds: fields.decimal('seconds'),
        cause: fields.text('cause'),
        millivolts: fields.decimal('millivolts'),
        stack: fields.decimal('stack'),
        master: fields.master('master'),
        flags: fields.flags('flags', FLAGS),
        badLines: fields.decimal('bad lines'),
        keeps: fields.decimal('keeps'),
      }),
    ),
  begin: (length: number, crc: number) => plain('begin', [length, hex4(crc)]),
  part: (offset: number, bytes: Uint8Array) =>
    request('part', [offset, toHex(bytes)], (fields) => fields.finish(fields.decimal('offset'))),
  /** The table hash of what runs now. */
  start: () => onceOnly('start', [], (fields) => fields.finish(fields.hex('shape', 4))),
  drop: () => plain('drop'),
  sum: (which: Which) =>
    request<ImageSum>('sum', [which], (fields) =>
      fields.finish({ length: fields.decimal('length'), crc: fields.hex('crc', 4), shape: fields.hex('shape', 4) }),
    ),
  read: (which: Which, offset: number) =>
    request<ImagePart>('read', [which, offset], (fields) =>
      fields.finish({ offset: fields.decimal('offset'), bytes: fields.bytes('bytes') }),
    ),
  /** Reads a dial, or sets it; the value now in force. */
  dial: (site: number, dial: number, ms?: number) =>
    request('dial', ms === undefined ? [site, dial] : [site, dial, ms], (fields) =>
      fields.finish(fields.decimal('ms')),
    ),
  /** Reads the cycle of a group, or sets it; the value now in force. */
  cycle: (group: number, ms?: number): Request<number> => ask.dial(GROUP_BASE + group, 0, ms),
  /** How many keeps there have been. */
  keep: () => onceOnly('keep', [], (fields) => fields.finish(fields.decimal('keeps'))),
  back: () => plain('back'),
  erase: () => plain('erase'),
  run: () => plain('run'),
  pause: () => plain('pause'),
  /** The row that ends. */
  step: (site: number) => onceOnly('step', [site], (fields) => fields.finish(fields.decimal('row'))),
  again: (site?: number) => plain('again', site === undefined ? [] : [site]),
  hold: (site: number, held: boolean) => plain('hold', [site, held ? 1 : 0]),
  /** `ms`: a single lamp that is on is forced off after this long. Firmware before 1.2.0 refuses it as code 2. */
  lamp: (lamp: number | 'all', to: Switch, ms?: number) =>
    plain('lamp', ms === undefined ? [lamp, to] : [lamp, to, ms]),
  master: (to: Master | 'auto') => plain('master', [to]),
  press: (input: number, to: Switch) => plain('press', [input, to]),
  inputs: () =>
    request<InputLevels>('inputs', [], (fields) =>
      fields.finish({ levels: fields.bits('levels'), demands: fields.bits('demands') }),
    ),
  tell: (on: boolean) => plain('tell', [on ? 1 : 0]),
  snap: () =>
    request<Snapshot>('snap', [], (fields) =>
      fields.finish({
        ms: fields.decimal('ms'),
        lit: fields.bits('lit'),
        demands: fields.bits('demands'),
        master: fields.master('master'),
        flags: fields.flags('flags', FLAGS),
      }),
    ),
  site: (site: number) =>
    request<SiteSnapshot>('site', [site], (fields) =>
      fields.finish({
        row: fields.decimal('row'),
        elapsed: fields.signed('elapsed'),
        flags: fields.flags('site flags', SITE_FLAGS),
        fault: faultOf(fields.decimal('fault')),
      }),
    ),
  /** `identity`: 8 hexadecimal digits. A name over 16 bytes of UTF-8 is cut between characters. */
  label: (identity: string, name: string) => {
    const bytes = new Uint8Array(NAME_BYTES);
    const { written } = new TextEncoder().encodeInto(name, bytes);
    return plain('label', [identity.toUpperCase(), toHex(bytes.subarray(0, written))]);
  },
  /** The board time. */
  beat: () => request('beat', [], (fields) => fields.finish(fields.decimal('ms'))),
  /** Drives an output that the running table does not use for 1 to 2,000 ms. */
  pulse: (output: number, high: boolean, ms: number) => plain('pulse', [output, high ? 1 : 0, ms]),
  /** Measures a pin; refused as `lampsLit` while any lamp is lit. */
  probe: (pin: number, activeHigh: boolean) =>
    request<PinReading>('probe', [pin, activeHigh ? 1 : 0], (fields) => {
      const level = fields.levelOrNone('level');
      const rest = fields.decimalOrNone('rest');
      const lit = fields.decimalOrNone('lit');
      return fields.finish({ level, rest, lit });
    }),
  supply: () =>
    request<Supply>('supply', [], (fields) =>
      fields.finish({
        millivolts: fields.decimal('millivolts'),
        least: fields.decimal('least'),
        reference: fields.decimalOrNone('reference'),
      }),
    ),
  /** Calibrates by what a meter shows of the supply, mV; the reference that comes out, mV. */
  meter: (millivolts: number) => request('meter', [millivolts], (fields) => fields.finish(fields.decimal('reference'))),
  /** Firmware before 1.2.0 refuses it as code 1. */
  guard: () =>
    request<GuardRecord>('guard', [], (fields) =>
      fields.finish({
        faults: fields.decimal('faults'),
        site: fields.decimalOrNone('site'),
        fault: faultOf(fields.decimal('fault')),
        deeds: fields.flags('deeds', DEEDS),
        watchdogs: fields.decimal('watchdogs'),
        brownouts: fields.decimal('brown-outs'),
      }),
    ),
} as const;
