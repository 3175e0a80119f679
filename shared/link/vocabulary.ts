/**
 * Words and codes of the serial protocol. One source for the firmware's header,
 * the TypeScript side and the tables in firmware/PROTOCOL.md.
 */

export const PROTOCOL_VERSION = 1;

/** 16 MHz, double speed, divisor 34: -0.79 %, inside the recommended +-1.5 %. */
export const BAUD = 57600;

export const LINK = {
  /** Longest request line, newline included, characters. */
  requestLine: 64,
  /** Longest line from the board, newline included, characters. */
  answerLine: 120,
  /** Bytes of an image in one `part` request. */
  partBytes: 16,
  /** Bytes of an image in one `read` answer. */
  readBytes: 32,
  /** Without a valid line for this long the host counts as gone, ms. */
  silenceMs: 5000,
  /** `lamp ... on MS`, ms. */
  lampLeastMs: 10,
  lampMostMs: 60_000,
  /** Longest `pulse`, ms. */
  pulseMostMs: 2000,
  /** What a meter may show of a supply, mV, and what may come out as the reference (1,000 to 1,200 by the data sheets). */
  meterLeastMv: 3000,
  meterMostMv: 5500,
  referenceLeastMv: 900,
  referenceMostMv: 1300,
} as const;

export interface Verb {
  readonly word: string;
  readonly args: string;
  readonly answer: string;
  readonly does: string;
  /** Answered at once, or when the work is done. */
  readonly slow: boolean;
  /** A repeat of the same line is answered with the first outcome and not done again. */
  readonly once: boolean;
}

export const VERBS: readonly Verb[] = [
  {
    word: 'who',
    args: '',
    answer: 'amberwick PROTOCOL FIRMWARE STORE CHIP IDENTITY SHAPE NAME',
    does: 'Identify. Frozen for ever. NAME is hexadecimal UTF-8, `-` where blank; SHAPE is the table hash, `-` without a table.',
    slow: false,
    once: false,
  },
  {
    word: 'caps',
    args: '',
    answer: 'IMAGE LAMPS SITES INPUTS GROUPS PROGRAMS CHIPS REQUEST PART READ',
    does: 'Capacities: slot bytes, counts, longest request line, bytes a part, bytes a read.',
    slow: false,
    once: false,
  },
  {
    word: 'state',
    args: '',
    answer: 'SECONDS CAUSE MILLIVOLTS STACK MASTER FLAGS BADLINES KEEPS',
    does: 'Uptime in seconds, reset cause, supply, bytes of stack never used, master state, flags, lines dropped, keeps so far.',
    slow: false,
    once: false,
  },
  {
    word: 'begin',
    args: 'LENGTH CRC',
    answer: '',
    does: 'Begin an upload of LENGTH bytes whose CRC is CRC. The spare slot is marked as empty first.',
    slow: true,
    once: true,
  },
  {
    word: 'part',
    args: 'OFFSET HEX',
    answer: 'OFFSET',
    does: 'Stage up to 16 bytes. Parts may come in any order and may be repeated.',
    slow: true,
    once: false,
  },
  {
    word: 'start',
    args: '',
    answer: 'SHAPE',
    does: 'Check the staged image and, when it is whole and consistent, run it from its start.',
    slow: true,
    once: true,
  },
  { word: 'drop', args: '', answer: '', does: 'Give up the upload.', slow: false, once: false },
  {
    word: 'sum',
    args: 'run|kept',
    answer: 'LENGTH CRC SHAPE',
    does: 'Length, CRC and hash of the running or the kept image.',
    slow: true,
    once: false,
  },
  {
    word: 'read',
    args: 'run|kept OFFSET',
    answer: 'OFFSET HEX',
    does: 'Read up to 32 bytes of the running or the kept image.',
    slow: false,
    once: false,
  },
  {
    word: 'dial',
    args: 'SITE DIAL [MS]',
    answer: 'MS',
    does: 'Read a dial, or set it. SITE 128 + G with DIAL 0 is the cycle of group G. Answers with the value now in force.',
    slow: false,
    once: false,
  },
  {
    word: 'keep',
    args: '',
    answer: 'KEEPS',
    does: 'Make the running image the one that the board starts with.',
    slow: true,
    once: true,
  },
  {
    word: 'back',
    args: '',
    answer: '',
    does: 'Put the kept values back into the running table; the cycle goes on. If another table is kept, that table starts.',
    slow: true,
    once: true,
  },
  { word: 'erase', args: '', answer: '', does: 'Mark both slots as empty and go dark.', slow: true, once: true },
  { word: 'run', args: '', answer: '', does: 'End a pause.', slow: false, once: false },
  {
    word: 'pause',
    args: '',
    answer: '',
    does: 'Stand still: no interval ends, flashing lamps flash on. Ends by itself.',
    slow: false,
    once: false,
  },
  {
    word: 'step',
    args: 'SITE',
    answer: 'ROW',
    does: 'End the running interval of a site in the next tick, also in a pause. ROW is the row that ends.',
    slow: false,
    once: true,
  },
  {
    word: 'again',
    args: '[SITE]',
    answer: '',
    does: 'Start a site, or all sites and groups from the same moment, from the beginning. Ends a fault.',
    slow: false,
    once: true,
  },
  {
    word: 'hold',
    args: 'SITE 0|1',
    answer: '',
    does: 'Keep a site in its running interval. Ends by itself.',
    slow: false,
    once: false,
  },
  {
    word: 'lamp',
    args: 'LAMP|all auto|on|off [MS]',
    answer: '',
    does: 'Override a lamp. Ends by itself. MS (10 to 60,000, only with `on` and a single lamp): forced off after this long. A second lamp with MS turns the first off at once; a later `lamp` for it ends the timing.',
    slow: false,
    once: false,
  },
  {
    word: 'master',
    args: 'auto|run|night|off|safe',
    answer: '',
    does: 'Set the master state; `auto` follows the switch on the layout. Ends by itself.',
    slow: false,
    once: false,
  },
  {
    word: 'press',
    args: 'INPUT auto|on|off',
    answer: '',
    does: 'Override the level of an input. Ends by itself.',
    slow: false,
    once: false,
  },
  {
    word: 'inputs',
    args: '',
    answer: 'LEVELS DEMANDS',
    does: 'Levels and latched demands, hexadecimal, input 0 in bit 0.',
    slow: false,
    once: false,
  },
  {
    word: 'tell',
    args: '0|1',
    answer: '',
    does: 'Stop or start events. They stop by themselves.',
    slow: false,
    once: false,
  },
  {
    word: 'snap',
    args: '',
    answer: 'MS LIT DEMANDS MASTER FLAGS',
    does: 'Snapshot of the board: time, lit lamps, demands, master state, flags.',
    slow: false,
    once: false,
  },
  {
    word: 'site',
    args: 'SITE',
    answer: 'ROW ELAPSED SITEFLAGS FAULT',
    does: 'Snapshot of one site. ELAPSED in ms, negative before a delayed start, without meaning at a fault.',
    slow: false,
    once: false,
  },
  {
    word: 'label',
    args: 'IDENTITY HEX',
    answer: '',
    does: "Write the board's identity (8 hexadecimal digits) and name (up to 16 bytes of UTF-8, hexadecimal, `-` for blank).",
    slow: true,
    once: false,
  },
  {
    word: 'beat',
    args: '',
    answer: 'MS',
    does: 'Says that the host is there; answers with the board time.',
    slow: false,
    once: false,
  },
  {
    word: 'pulse',
    args: 'OUTPUT 0|1 MS',
    answer: '',
    does: 'Drive a pin or chain bit that nothing of the running table uses at that level for 1 to 2,000 ms, then let it go. One at a time; ends by itself.',
    slow: false,
    once: false,
  },
  {
    word: 'probe',
    args: 'PIN 0|1',
    answer: 'LEVEL REST LIT',
    does: 'Measure a pin whose lamp is lit when high (1) or low (0), while all lamps are dark; `-` for what cannot be measured (chapter 5).',
    slow: false,
    once: false,
  },
  {
    word: 'supply',
    args: '',
    answer: 'MILLIVOLTS LEAST REFERENCE',
    does: 'Supply now and its lowest since this was asked last, mV; the internal reference as calibrated, mV, or `-`.',
    slow: false,
    once: false,
  },
  {
    word: 'meter',
    args: 'MILLIVOLTS',
    answer: 'REFERENCE',
    does: 'Calibrate the internal reference by what a meter shows of the supply (3,000 to 5,500 mV), and store it.',
    slow: true,
    once: false,
  },
  {
    word: 'guard',
    args: '',
    answer: 'FAULTS SITE FAULT DEEDS WATCHDOGS BROWNOUTS',
    does: 'What the guard has seen since the board started: faults of sites (255: that or more), site and number of the last one (`-` and 0 where none), deeds; restarts by watchdog and by brown-out since power-on (chapter 6).',
    slow: false,
    once: false,
  },
];

export interface Code {
  readonly code: number;
  readonly key: string;
  /** Plain reason sent on the wire: short, lower case, no digits. */
  readonly reason: string;
  /** What a person can do about it. */
  readonly cure: string;
}

export const CODES: readonly Code[] = [
  {
    code: 1,
    key: 'unknownVerb',
    reason: 'unknown word',
    cure: 'Update the firmware or the app so that both speak the same protocol.',
  },
  { code: 2, key: 'badArguments', reason: 'bad arguments', cure: 'Send the arguments that the protocol names.' },
  {
    code: 3,
    key: 'noSuchThing',
    reason: 'no such number',
    cure: 'Read the board again: it runs another table than the file.',
  },
  { code: 4, key: 'outsideLimits', reason: 'outside limits', cure: 'Choose a time within the limits of the dial.' },
  { code: 5, key: 'noTable', reason: 'no table', cure: 'Send a layout to the board first.' },
  { code: 6, key: 'busy', reason: 'busy', cure: 'Wait a moment and try again.' },
  { code: 7, key: 'noUpload', reason: 'no upload begun', cure: 'Begin the upload again.' },
  { code: 8, key: 'tooLong', reason: 'too long', cure: 'Make the layout smaller or use a larger board.' },
  { code: 9, key: 'notWhole', reason: 'not whole', cure: 'Send the missing parts again.' },
  {
    code: 10,
    key: 'storeFailed',
    reason: 'store failed',
    cure: 'The memory of the board does not hold what is written. Use another board.',
  },
  { code: 11, key: 'lampsLit', reason: 'lamps lit', cure: 'Darken the lamps first.' },
  { code: 20, key: 'badFormat', reason: 'unknown image format', cure: 'Update the firmware of the board.' },
  { code: 21, key: 'badCount', reason: 'count too high', cure: 'Make the layout smaller or use a larger board.' },
  {
    code: 22,
    key: 'badLength',
    reason: 'record length wrong',
    cure: 'Send the layout again; if it happens again, report it.',
  },
  { code: 23, key: 'badOutput', reason: 'no such output', cure: 'Choose another pin for the lamp.' },
  { code: 24, key: 'badInput', reason: 'no such input', cure: 'Choose another pin for the input.' },
  {
    code: 25,
    key: 'badDial',
    reason: 'dial number or limits wrong',
    cure: 'Send the layout again; if it happens again, report it.',
  },
  { code: 26, key: 'badRow', reason: 'row not understood', cure: 'Update the firmware of the board.' },
  {
    code: 27,
    key: 'badTarget',
    reason: 'jump to nowhere',
    cure: 'Send the layout again; if it happens again, report it.',
  },
  { code: 28, key: 'badTime', reason: 'time outside its limits', cure: 'Choose a time within the limits of the dial.' },
  {
    code: 29,
    key: 'conflict',
    reason: 'conflicting lamps lit together',
    cure: 'Check the stages: two conflicting phases are green together.',
  },
  {
    code: 30,
    key: 'badSite',
    reason: 'site not understood',
    cure: 'Send the layout again; if it happens again, report it.',
  },
  { code: 31, key: 'pinTwice', reason: 'pin used twice', cure: 'Give each lamp, input and chain line its own pin.' },
];

/** Faults of a running site (the FAULT field and the `fault` event). */
export const FAULTS = [
  { code: 0, key: 'none', reason: 'no fault' },
  { code: 1, key: 'conflict', reason: 'conflicting lamps driven together' },
  { code: 2, key: 'stuck', reason: 'no interval reached' },
  { code: 3, key: 'table', reason: 'running table damaged' },
  { code: 4, key: 'state', reason: 'running state damaged' },
] as const;

/** What the guard does to the whole board: DEEDS of `guard` (hexadecimal bits) and the DEED of its event (a bit's number). */
export const DEEDS = [
  { bit: 0, key: 'reloaded', means: 'the running table was damaged: the kept one was started in its place' },
  { bit: 1, key: 'stopped', means: 'the running table was damaged and none is kept whole: the board went dark' },
  { bit: 2, key: 'renewed', means: 'the kept table was damaged: the running one, which is the same, was kept anew' },
  { bit: 3, key: 'damaged', means: 'the kept table is damaged and was not renewed' },
] as const;

/** FLAGS of `state` and `snap`, hexadecimal. */
export const FLAGS = [
  { bit: 0, key: 'table', means: 'a table runs' },
  { bit: 1, key: 'unkept', means: 'running image differs from the kept one' },
  { bit: 2, key: 'paused', means: 'paused by the host' },
  { bit: 3, key: 'override', means: 'at least one lamp or input is overridden' },
  { bit: 4, key: 'fault', means: 'at least one site is at its fault aspect' },
  { bit: 5, key: 'upload', means: 'an upload is begun' },
  {
    bit: 6,
    key: 'storeFault',
    means: 'a kept table was found damaged at start, or later and not renewed, or the store is of a newer version',
  },
  { bit: 7, key: 'labelFault', means: 'name and identity are blank or damaged' },
] as const;

/** SITEFLAGS of `site`, hexadecimal. */
export const SITE_FLAGS = [
  { bit: 0, key: 'held', means: 'held by the host' },
  { bit: 1, key: 'fault', means: 'at its fault aspect' },
  { bit: 2, key: 'waiting', means: 'minimum passed, waiting for its condition' },
  { bit: 3, key: 'stays', means: 'has come back too often and stays at its fault aspect until `again`' },
] as const;

export const MASTERS = ['run', 'night', 'off', 'safe'] as const;
export const CAUSES = ['unknown', 'power', 'reset', 'brownout', 'watchdog'] as const;

export interface EventWord {
  readonly word: string;
  readonly fields: string;
  readonly when: string;
}

export const EVENTS: readonly EventWord[] = [
  {
    word: 'hello',
    fields: 'PROTOCOL CAUSE FLAGS',
    when: 'The board has started. Sent without being asked for, an empty line before it.',
  },
  {
    word: 'lamps',
    fields: 'MS LIT',
    when: 'The lit lamps changed at board time MS. LIT is hexadecimal, lamp 0 in bit 0 of the last digit.',
  },
  { word: 'row', fields: 'MS SITE ROW', when: 'A site entered an interval at board time MS, its start row included.' },
  { word: 'demand', fields: 'MS INPUT', when: 'A demand was latched.' },
  {
    word: 'fault',
    fields: 'MS SITE FAULT',
    when: 'A site went to its fault aspect; with FAULT 0 it has come back by itself.',
  },
  { word: 'gap', fields: 'MS', when: 'The line was full and events were merged or lost: ask for a snapshot.' },
  {
    word: 'alone',
    fields: 'MS',
    when: 'The host fell silent: overrides, holds, pauses and presses ended, events stop.',
  },
  { word: 'guard', fields: 'MS DEED', when: 'The guard has done something to the whole board.' },
];
