/**
 * What the panel can ask of the host, and what the host tells the panel. One
 * map of calls and one map of events; the preload bridge, the browser
 * transport, the host's handlers and the test double are all derived from them.
 *
 * Boards are named by their id in the open layout; sites, dials, lamps and
 * inputs by their number in that board's table. Times are whole milliseconds,
 * board time is the board's own 32-bit clock.
 */
import { z } from 'zod';
import type { Glow, WiringFault } from '../electrics/model.ts';
import { CheckRecord } from '../layout/check-record.ts';
import { type DocumentFile, FILE_CALLS, type FileResults } from './calls/files.ts';
import { PICTURE_CALLS, type PictureResults } from './calls/pictures.ts';
import { SESSION_CALLS, type SessionResults } from './calls/sessions.ts';
import { SHELL_CALLS, type ShellResults } from './calls/shell.ts';
import { TUNING_CALLS, type TuningResults } from './calls/tuning.ts';

/** Something that did not work: one sentence each. */
export interface Problem {
  /** Stable short name, for tests and for help. */
  readonly code: string;
  /** What happened. */
  readonly what: string;
  /** The likely cause. */
  readonly why: string;
  /** The next step. */
  readonly next: string;
  /** Raw code or message, for those who want it. */
  readonly detail?: string;
}

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };

const board = z.string().min(1).max(64);
const count = z.int().min(0).max(255);
const ms = z.int().min(0).max(32_767_000);
const onOff = z.enum(['auto', 'on', 'off']);
/** As in the board image: below 128 a pin, from 128 on a bit of the chain. */
const output = z.int().min(0).max(255);
const head = count.optional();

const fault = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('open'), lamp: count, head }),
  z.strictObject({ kind: z.literal('short'), lamp: count }),
  z.strictObject({ kind: z.literal('reversed'), lamp: count, head }),
  z.strictObject({ kind: z.literal('noResistor'), lamp: count }),
  z.strictObject({ kind: z.literal('dim'), lamp: count }),
  z.strictObject({ kind: z.literal('swapped'), lamp: count, with: count }),
  z.strictObject({ kind: z.literal('bridged'), lamp: count, with: count }),
]);

/** Arguments of every call; the host narrows what arrives with these. */
export const CALLS = {
  /** Everything that is needed to draw the panel from nothing. */
  look: z.strictObject({}),
  /** Open a layout from its text (chosen, dropped or typed in the panel). */
  openText: z.strictObject({ name: z.string().min(1).max(255), text: z.string().max(4_000_000) }),
  /**
   * Put another text in the place of the open layout's, under the same name. `what` is a line in the
   * past tense for the log, such as "Added the pelican Quay Hill.". A text that is no layout is refused.
   */
  changeText: z.strictObject({
    text: z.string().max(4_000_000),
    what: z.string().min(1).max(400),
    /** `limit`: limits of a time were set against the practice's. Default: document. */
    as: z.enum(['document', 'limit']).optional(),
  }),
  /** Open the Penmarrow example. */
  openExample: z.strictObject({}),
  listPorts: z.strictObject({}),
  /** Attach a board of the layout to a port. Never writes to the board by itself. */
  connect: z.strictObject({ board, port: z.string().min(1).max(255) }),
  disconnect: z.strictObject({ board }),
  /** Send the board's part of the layout and run it. Progress comes as events. */
  send: z.strictObject({ board }),
  cancelSend: z.strictObject({ board }),
  nudge: z.strictObject({ board, site: count, dial: count, ms }),
  keep: z.strictObject({ board }),
  putBack: z.strictObject({ board }),
  /** The tables that a board keeps and has kept, as copied on this computer; the newest first. */
  earlierKeeps: z.strictObject({ board }),
  /** Send and keep one of them, named by its moment and its CRC; undone by choosing another. Progress comes as events. */
  putBackKept: z.strictObject({ board, at: z.string().max(40), crc: z.string().max(8) }),
  hold: z.strictObject({ board, site: count, on: z.boolean() }),
  step: z.strictObject({ board, site: count }),
  /** Start one site, or with null all sites, from the beginning. */
  again: z.strictObject({ board, site: count.nullable() }),
  pause: z.strictObject({ board, on: z.boolean() }),
  master: z.strictObject({ board, state: z.enum(['auto', 'run', 'night', 'off', 'safe']) }),
  press: z.strictObject({ board, input: count, as: onOff }),
  /** The virtual board's switch. Off loses what was not kept. */
  power: z.strictObject({ board, on: z.boolean() }),
  /** The virtual board's speed: 1 is real time, 0 as fast as it goes; below a tenth it would answer too late. */
  speed: z.strictObject({ board, factor: z.union([z.literal(0), z.number().min(0.1).max(1000)]) }),
  /** A remark of the person, for the log. */
  remark: z.strictObject({ text: z.string().min(1).max(2000) }),
  /** The whole session log as JSON Lines text. */
  readLog: z.strictObject({}),
  /**
   * Write the shipped firmware through the boot loader of the board at a port, then attach it.
   * What the board had kept is put back if it does not survive. Progress comes as events.
   */
  writeFirmware: z.strictObject({ board, port: z.string().min(1).max(255) }),
  /** Takes effect at the next page; the answer of `writeFirmware` says in what state that leaves the board. */
  cancelFirmware: z.strictObject({ board }),
  /**
   * Put the board at a port in the place of one that is broken or gone: firmware where it is missing or old,
   * the name, and what was kept last on the old board, else the open layout; kept.
   */
  replaceBoard: z.strictObject({ board, port: z.string().min(1).max(255) }),
  /** What was said on the line to a board, the last 200 lines, oldest first. */
  readFrames: z.strictObject({ board }),
  /** A text for asking for help, with nothing private in it. */
  makeReport: z.strictObject({}),
  /**
   * Begin a lamp check: all lamps dark but those that `light` lights; with `safe` the sites that are not
   * at hand show their safe aspects. What runs goes on underneath. Ends by itself when the app dies.
   */
  beginCheck: z.strictObject({ board, others: z.enum(['dark', 'safe']) }),
  /**
   * Light one lamp of the table and no other, or with null none; `forMs`: it goes dark by itself after this
   * long, for one that is not yet proven; 0: until told otherwise.
   */
  light: z.strictObject({ board, lamp: count.nullable(), forMs: z.int().min(0).max(10_000) }),
  endCheck: z.strictObject({ board }),
  /** Lights an output that the table does not use, for so long; for finding forgotten wires. */
  pulse: z.strictObject({ board, output, high: z.boolean(), forMs: z.int().min(1).max(2000) }),
  /** Measures a pin while all lamps are dark, under 1 ms; `activeLow`: its lamp is lit when low. */
  probe: z.strictObject({ board, pin: z.int().min(0).max(127), activeLow: z.boolean() }),
  /** Supply of the board now; with `meterMillivolts` (what a meter shows) calibrates it first, stored on the board. */
  supply: z.strictObject({ board, meterMillivolts: z.int().min(3000).max(5500).optional() }),
  /** Keeps what the check found so far on this computer, and writes `said` into the log. */
  noteCheck: z.strictObject({ board, record: CheckRecord, said: z.string().min(1).max(400) }),
  /** Wiring faults of the virtual board, to practise on; an empty list mends all. */
  setFaults: z.strictObject({ board, faults: z.array(fault).max(128) }),
  /** A page of HTML as a PDF file; refused where the shell cannot make one (then the page is printed). */
  makePdf: z.strictObject({ name: z.string().min(1).max(120), html: z.string().max(4_000_000) }),
  ...FILE_CALLS,
  ...PICTURE_CALLS,
  ...SESSION_CALLS,
  ...SHELL_CALLS,
  ...TUNING_CALLS,
} as const;

export type CallName = keyof typeof CALLS;
export type CallArgs<N extends CallName> = z.infer<(typeof CALLS)[N]>;

export interface CallResults extends FileResults, PictureResults, SessionResults, ShellResults, TuningResults {
  look: Scene;
  openText: DocumentState;
  changeText: DocumentState;
  openExample: DocumentState;
  listPorts: readonly PortInfo[];
  connect: BoardState;
  disconnect: BoardState;
  send: BoardState;
  cancelSend: null;
  nudge: { readonly ms: number };
  keep: { readonly keeps: number };
  putBack: BoardState;
  earlierKeeps: readonly EarlierKeep[];
  putBackKept: BoardState;
  hold: null;
  step: { readonly row: number };
  again: null;
  pause: null;
  master: null;
  press: null;
  power: BoardState;
  speed: null;
  remark: null;
  readLog: { readonly name: string; readonly text: string };
  writeFirmware: BoardState;
  cancelFirmware: null;
  replaceBoard: BoardState;
  readFrames: readonly Frame[];
  makeReport: { readonly name: string; readonly text: string };
  beginCheck: null;
  light: null;
  endCheck: null;
  pulse: null;
  probe: ProbeReading;
  supply: SupplyReading;
  noteCheck: BoardState;
  setFaults: BoardState;
  makePdf: { readonly name: string; readonly base64: string };
}

/** A table that a board kept once. */
export interface EarlierKeep {
  /** When this computer first saw it kept, ISO 8601. */
  readonly at: string;
  /** Name of its layout; empty where it was not the open one. */
  readonly layout: string;
  /** CRC-16 of the table, four hexadecimal digits. */
  readonly crc: string;
  /** How it compares with the open layout. */
  readonly match: TableMatch;
  /** The board starts with it now. */
  readonly isNow: boolean;
  /**
   * The times that are others in what runs now, ms, by name; `now` is null for a time that is there no more. Null
   * where nobody knows the names, or what runs now.
   */
  readonly changes: readonly { readonly name: string; readonly was: number; readonly now: number | null }[] | null;
}

/** Raw readings of one pin, of 1,023 for the board's own supply; null where the pin or the polarity cannot give it. */
export interface ProbeReading {
  /** Digital level of an active-high pin under the weak pull-up. */
  readonly level: 0 | 1 | null;
  /** Analogue pins: under the pull-up (active high), or let go after being pulled low (active low). */
  readonly rest: number | null;
  /** Analogue pins: while the lamp is driven for some microseconds. */
  readonly lit: number | null;
}

export interface SupplyReading {
  readonly millivolts: number;
  /** Lowest since the last question. */
  readonly least: number;
  /** Internal reference as calibrated, mV; null: never, so `millivolts` may be 10 % off. */
  readonly reference: number | null;
}

/** The open layout. The panel parses and compiles the text with shared/ itself. */
export interface DocumentState {
  /** File name, for the title. */
  readonly name: string;
  readonly text: string;
  /** Counts up with every change of the text. */
  readonly version: number;
  readonly file: DocumentFile;
  /** Another number with each layout that is opened; the same while one is changed, and again when it is put back. */
  readonly opened: number;
}

export interface PortInfo {
  /** What `connect` takes. */
  readonly path: string;
  /** What a person reads. */
  readonly label: string;
  readonly virtual: boolean;
  /** Looks like a board's USB bridge. */
  readonly likely: boolean;
  /** Board of the layout that holds this port now. */
  readonly board: string | null;
}

export type LinkState = 'off' | 'opening' | 'greeting' | 'ready' | 'lost';

/** How the firmware on the board compares with the one that this app ships for its chip; `none` where there is none of ours. */
export type FirmwareMatch = 'unknown' | 'none' | 'older' | 'same' | 'newer';

/** Parts of writing firmware and replacing a board; `press`: the person has to press the board's reset button now. */
export type TaskStage = 'read' | 'reset' | 'press' | 'write' | 'verify' | 'greet' | 'restore';

/** How the table on the board compares with the open layout. */
export type TableMatch = 'unknown' | 'none' | 'same' | 'times' | 'other';

export interface BoardState {
  readonly board: string;
  readonly port: string | null;
  readonly virtual: boolean;
  readonly link: LinkState;
  /** Why the link is off or lost, or what was refused last. */
  readonly problem: Problem | null;
  /** The virtual board's switch; null on a real board. */
  readonly powered: boolean | null;
  readonly speed: number | null;
  readonly who: {
    readonly firmware: string;
    readonly protocol: number;
    readonly chip: string;
    readonly identity: string;
    readonly name: string;
  } | null;
  readonly running: TableMatch;
  readonly kept: TableMatch;
  /** Dials of the running table, ms, by site; null unless running is same or times. */
  readonly runningDials: readonly (readonly number[])[] | null;
  /** Dials of the kept table, ms, by site; null unless kept is same or times. */
  readonly keptDials: readonly (readonly number[])[] | null;
  readonly unkept: boolean;
  readonly paused: boolean;
  readonly held: readonly boolean[];
  /** Fault codes of protocol chapter 1, by site. */
  readonly faults: readonly number[];
  readonly master: string;
  readonly keeps: number;
  /**
   * How often the memory of the board was written, as far as this computer knows: no byte of it more often than
   * `keeps` and `sends` together. `worn`: near the end of what it is made for. Null for a board never met.
   */
  readonly wear: {
    readonly keeps: number;
    readonly sends: number;
    readonly madeFor: number;
    readonly worn: boolean;
  } | null;
  readonly supplyMillivolts: number | null;
  readonly resetCause: string;
  /** A long task under way. `done` of `total` starts anew with each stage. */
  readonly task: {
    readonly name: 'send' | 'keep' | 'putBack' | 'readBack' | 'firmware' | 'replace';
    readonly done: number;
    readonly total: number;
    readonly stage?: TaskStage;
    /** `cancelFirmware` or `cancelSend` still helps. */
    readonly cancellable?: boolean;
  } | null;
  /** Nothing has been heard for about a second; the link is `ready` until the board is given up. */
  readonly quiet: boolean;
  readonly firmware: {
    readonly match: FirmwareMatch;
    /** Version that this app ships for the board's chip; null when it cannot be read. */
    readonly shipped: string | null;
  };
  /** Whether the last opening of the port started the board anew; null while not known. */
  readonly openingResets: boolean | null;
  /** The chip by its signature, read when the firmware was written; null while not known. */
  readonly silicon: {
    readonly name: string;
    /** Most current through its supply pins, mA. */
    readonly totalMilliamps: number;
  } | null;
  /** When this computer last copied what this board keeps, ISO 8601; null without a copy. */
  readonly copiedAt: string | null;
  /** What the last lamp check of this board found, finished or not, as kept on this computer. */
  readonly check: CheckRecord | null;
  /** A check holds the lamps: the board is not showing its sites. */
  readonly checking: boolean;
  /** Faults set in the wiring of the virtual board; null on a real one. */
  readonly wiringFaults: readonly WiringFault[] | null;
  /** Sites that are to be held as soon as they enter one of these rows. */
  readonly arms: readonly { readonly site: number; readonly rows: readonly number[] }[];
  /** CRC-16 of the kept table, four hexadecimal digits; null while none is known. */
  readonly keptCrc: string | null;
  /** It runs the open layout with other limits of times, which only sending changes. */
  readonly needsSending: boolean;
}

/** One line, or bytes that are none, between host and board. */
export interface Frame {
  /** Counts from 1 for each board. */
  readonly number: number;
  /** Wall-clock time, ISO 8601 with zone. */
  readonly at: string;
  readonly direction: 'toBoard' | 'fromBoard';
  /** As it was sent, without its newline; what is not printable as \xNN. */
  readonly text: string;
  /** What it says, as a sentence. */
  readonly meaning: string;
  /** False for noise: a wrong CRC, too long, no line at all. */
  readonly sound: boolean;
}

/** What a board's lamps and sites do now. */
export interface LiveState {
  readonly board: string;
  /** Board time of the newest thing known. */
  readonly ms: number;
  /** Lit lamps, hexadecimal, lamp 0 in bit 0 of the last digit. */
  readonly lit: string;
  /** Running row and the board time at which it began, by site. */
  readonly rows: readonly { readonly row: number; readonly began: number }[];
  /** Virtual boards only. */
  readonly glow: LayoutGlow | null;
}

/** What the lamps of a virtual layout really do: for each lamp of the table one for each head. */
export type LayoutGlow = readonly (readonly Glow[])[];

export type LogKind =
  | 'start'
  | 'document'
  | 'connection'
  | 'upload'
  | 'nudge'
  | 'keep'
  | 'putBack'
  | 'control'
  | 'power'
  | 'reset'
  | 'fault'
  | 'problem'
  | 'firmware'
  | 'check'
  | 'remark'
  | 'photo'
  | 'limit'
  | 'end';

export interface LogEntry {
  /** Counts from 1 without a gap within a session. */
  readonly number: number;
  /** Wall-clock time, ISO 8601 with zone. */
  readonly at: string;
  readonly kind: LogKind;
  readonly board?: string;
  readonly boardMs?: number;
  /** One line in the past tense; what a person wrote may have several. */
  readonly text: string;
  /** What the numbers in `data` are called, so that the entry can be read without its layout. */
  readonly names?: { readonly board?: string; readonly site?: string; readonly dial?: string };
  /** Exact values: hashes, from, to, codes. */
  readonly data?: Readonly<Record<string, string | number | boolean | null>>;
  /** On trouble: the last lines between host and board, oldest first, each with its meaning. */
  readonly frames?: readonly string[];
}

export interface Scene {
  readonly host: { readonly shell: 'electron' | 'browser'; readonly version: string };
  readonly document: DocumentState;
  readonly ports: readonly PortInfo[];
  readonly boards: readonly BoardState[];
  readonly live: readonly LiveState[];
  readonly log: readonly LogEntry[];
}

/** What the host tells without being asked. */
export interface Events {
  document: DocumentState;
  ports: readonly PortInfo[];
  board: BoardState;
  /** Everything of a board's live state at once: after connecting and after a gap. */
  live: LiveState;
  lamps: { readonly board: string; readonly ms: number; readonly lit: string };
  /** Virtual boards: the light of the layout changed. */
  glow: { readonly board: string; readonly glow: LayoutGlow };
  row: { readonly board: string; readonly ms: number; readonly site: number; readonly row: number };
  demand: { readonly board: string; readonly ms: number; readonly input: number };
  /** Board time now, about twice a second, with the board's pace (board ms for each ms; 0 while it stands). */
  clock: { readonly board: string; readonly ms: number; readonly pace: number };
  log: LogEntry;
  /** A command of the panel was chosen in a menu of the system. */
  command: { readonly id: string };
}

export type EventName = keyof Events;

export const EVENT_NAMES: readonly EventName[] = [
  'document',
  'ports',
  'board',
  'live',
  'lamps',
  'glow',
  'row',
  'demand',
  'clock',
  'log',
  'command',
];

/** The one interface between panel and host. Calls never reject: a problem is a value. */
export interface Workbench {
  call<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>>;
  /** Returns a function that ends the subscription. */
  on<N extends EventName>(name: N, listener: (data: Events[N]) => void): () => void;
}
