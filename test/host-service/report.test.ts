import { describe, expect, it } from 'vitest';
import { openDocument } from '../../electron/host/service/document.ts';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import { FrameRecorder } from '../../electron/host/service/frames.ts';
import { tapLoader } from '../../electron/host/service/loader-frames.ts';
import { countsOf, makeReport, type ReportBoard, type ReportParts } from '../../electron/host/service/report.ts';
import { systemFacts } from '../../electron/host/service/system-facts.ts';
import { toHex } from '../../shared/link/fields.ts';
import { encodeEvent, encodeNo, encodeOk, encodeRequest } from '../../shared/link/line.ts';
import type { BoardState, LogEntry } from '../../shared/workbench/contract.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import { FakeStream } from '../host/fake-stream.ts';

const NOON = new Date('1965-06-01T12:00:00.250Z');
const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0));
const hexOf = (text: string): string => toHex(new TextEncoder().encode(text));

const SYSTEM = {
  platform: 'linux',
  arch: 'x64',
  node: '20.19.1',
  electron: '39.2.7',
  serialport: '13.0.0',
  release: '6.8.0-45-generic',
};

const STATE: BoardState = {
  board: 'town',
  port: '/dev/ttyUSB0',
  virtual: false,
  link: 'lost',
  problem: describeProblem('uploadRefused', { board: 'Town board', refusal: 29, detail: 'byte 40' }),
  powered: null,
  speed: null,
  who: { firmware: '1.1.0', protocol: 1, chip: 'atmega328p', identity: '0BADCAFE', name: 'Town board' },
  running: 'times',
  kept: 'same',
  runningDials: null,
  keptDials: null,
  unkept: true,
  paused: false,
  held: [false, true],
  faults: [0, 2],
  master: 'night',
  keeps: 7,
  wear: null,
  supplyMillivolts: 4980,
  resetCause: 'watchdog',
  task: { name: 'firmware', done: 128, total: 24_736, stage: 'write', cancellable: true },
  quiet: true,
  firmware: { match: 'same', shipped: '1.1.0' },
  openingResets: true,
  silicon: { name: 'ATmega328PB', totalMilliamps: 100 },
  copiedAt: '1965-05-31T09:00:00.000Z',
  check: null,
  checking: false,
  wiringFaults: null,
  arms: [],
  keptCrc: null,
  needsSending: false,
};

const WHO = {
  protocol: 1,
  firmware: '1.1.0',
  store: 1,
  chip: 'atmega328p',
  identity: '0BADCAFE',
  shape: 0xab04,
  name: 'Town board',
};

const TOLD = {
  seconds: 3600,
  cause: 'watchdog',
  millivolts: 4980,
  stack: 312,
  master: 'night',
  flags: new Set(['table', 'unkept'] as const),
  badLines: 3,
  keeps: 7,
} as const;

const COUNTS = { sites: 2, lamps: 14, inputs: 1, groups: 0, chips: 2 };

function board(change: Partial<ReportBoard> = {}): ReportBoard {
  return { state: STATE, who: WHO, told: TOLD, counts: COUNTS, frames: [], ...change };
}

function parts(change: Partial<ReportParts> = {}): ReportParts {
  return {
    at: NOON,
    version: '0.1.0',
    shell: 'electron',
    system: SYSTEM,
    ports: [],
    boards: [board()],
    log: [],
    ...change,
  };
}

/** What was said, as a recorder has it. */
function heard(
  talk: (say: { ask: (text: string) => void; answer: (text: string) => void; stream: FakeStream }) => void,
) {
  const recorder = new FrameRecorder(() => NOON);
  const stream = new FakeStream();
  const tapped = recorder.tap(stream);
  talk({ ask: (text) => tapped.write(bytesOf(text)), answer: (text) => stream.say(text), stream });
  return recorder;
}

/** A stream without what more a loader line can do. */
function lineOf(stream: FakeStream) {
  return {
    write: (bytes: Uint8Array) => stream.write(bytes),
    onData: (listener: (bytes: Uint8Array) => void) => stream.onData(listener),
    onClose: (listener: (cause: string) => void) => stream.onClose(listener),
    close: () => stream.close(),
  };
}

/** The lines of one section, without their indent. */
function section(text: string, title: string): string[] {
  const lines = text.split('\n');
  const begin = lines.findIndex((line) => line.startsWith(title));
  expect(begin).toBeGreaterThan(0);
  const end = lines.indexOf('', begin);
  return lines.slice(begin + 1, end === -1 ? undefined : end).map((line) => line.trim());
}

describe('a report', () => {
  it('begins with what it is and that it can be read before it is sent; its name is the time', () => {
    const { name, text } = makeReport(parts());
    expect(name).toBe('amberwick-report-1965-06-01T12-00-00Z.txt');
    expect(text.split('\n').slice(0, 3)).toEqual([
      'Amberwick report, for asking for help: how the app, the boards and the talk with them are.',
      'It has no names, file names, remarks, addresses or serial numbers in it. Read it before you send it.',
      '',
    ]);
    expect(text).toMatch(/^[\x20-\x7e\n]*\n$/);
  });

  it('says with what it was made', () => {
    expect(section(makeReport(parts()).text, 'Made with')).toEqual([
      'time        1965-06-01T12:00:00.250Z',
      'amberwick   0.1.0, in a window',
      'system      linux x64, release 6.8.0',
      'node        20.19.1',
      'electron    39.2.7',
      'serialport  13.0.0',
    ]);
    const real = section(makeReport(parts({ system: systemFacts(), shell: 'command line' })).text, 'Made with').join(
      '\n',
    );
    expect(real).toContain('0.1.0, on the command line');
    expect(real).toContain(`node        ${process.versions.node}`);
    expect(real).toContain('electron    none');
    expect(real).toMatch(/serialport {2}\d+\.\d+\.\d+/);
    expect(real).toMatch(new RegExp(`system {6}${process.platform} ${process.arch}, release \\d+`));
  });

  it('says how each board is, in codes and numbers', () => {
    expect(section(makeReport(parts()).text, 'Board 1')).toEqual([
      'port               /dev/ttyUSB0',
      'link               lost, quiet',
      'problem            uploadRefused, code 29, byte 40',
      'opening resets it  yes',
      'chip               atmega328p',
      'silicon            ATmega328PB, 100 mA',
      'firmware           1.1.0 (same), protocol 1, store 1',
      'shipped firmware   1.1.0',
      'identity, name     set, set',
      'runs, keeps        times, same',
      'state              master night, unkept',
      'faults by site     0 2',
      'held sites         1',
      'kept so far        7 times',
      'supply             4980 mV',
      'reset cause        watchdog',
      'flags              table, unkept',
      'up for             3600 s',
      'lines dropped      3',
      'stack never used   312 bytes',
      'task               firmware, write, 128 of 24736',
      'copy here          1965-05-31T09:00:00.000Z',
      'layout             2 sites, 14 lamps, 1 input, 0 groups, 2 shift registers',
    ]);
  });

  it('says as much of a board that never answered', () => {
    const state: BoardState = {
      ...STATE,
      ...{ link: 'off', problem: describeProblem('noAnswer', { port: '/dev/ttyUSB0' }), quiet: false, who: null },
      ...{ running: 'unknown', kept: 'unknown', unkept: false, held: [], faults: [], master: 'run', keeps: 0 },
      ...{
        supplyMillivolts: null,
        resetCause: 'unknown',
        task: null,
        openingResets: null,
        silicon: null,
        copiedAt: null,
      },
      firmware: { match: 'none', shipped: null },
    };
    const facts = section(
      makeReport(parts({ boards: [board({ state, who: null, told: null, counts: null })] })).text,
      'Board 1',
    );
    expect(facts).toContain('problem            noAnswer');
    expect(facts).toContain('firmware           not known (none)');
    expect(facts).toContain('flags              not known');
  });

  it('names ports by their kind and what is plugged in there', () => {
    const port = (path: string, label: string, likely = true, held: string | null = null) => ({
      ...{ path, label, likely, virtual: path.startsWith('virtual'), board: held },
    });
    const ports = [
      port('/dev/ttyUSB0', 'USB serial (CH340)', true, 'town'),
      port('COM12', 'board with its own USB'),
      port('/dev/cu.usbserial-A50285BI', 'some maker, 0403:6001'),
      port('/dev/ttyS0', 'serial port', false),
      port('virtual:town', 'Virtual board for Town board', false),
    ];
    expect(section(makeReport(parts({ ports })).text, 'Ports')).toEqual([
      '/dev/ttyUSB0, USB serial (CH340), likely a board, held by board 1',
      'COM12, board with its own USB, likely a board',
      '/dev/cu.usbserial[left out], USB 0403:6001, likely a board',
      '/dev/ttyS0, serial port',
      'virtual board',
    ]);
  });

  it('has the log as kinds, codes and numbers, two boards apart', () => {
    const at = NOON.toISOString();
    const log: LogEntry[] = [
      { number: 1, at, kind: 'start', text: 'Amberwick started.', data: { shell: 'browser' } },
      {
        ...{ number: 2, at, kind: 'connection', board: 'town', boardMs: 1500, text: 'Connected Town board.' },
        data: { port: '/dev/ttyUSB0', chip: 'atmega328p', firmware: '1.1.0', identity: '0BADCAFE', running: 'same' },
      },
      { number: 3, at, kind: 'problem', board: 'yard', text: 'No.', data: { code: 'portBusy' }, frames: ['a', 'b'] },
      { number: 4, at, kind: 'nudge', board: 'town', text: 'Changed.', data: { site: 0, from: 18_000, to: 20_500 } },
      {
        number: 5,
        at,
        kind: 'keep',
        board: 'town',
        text: 'Kept.',
        data: { keeps: 2, crc: 'AB04', on: true, place: null },
      },
      { number: 6, at, kind: 'remark', text: 'The postman waits too long.' },
    ];
    expect(section(makeReport(parts({ log })).text, 'Log')).toEqual([
      `1 ${at} start: shell browser`,
      `2 ${at} connection: board 1, board time 1500 ms, port /dev/ttyUSB0, chip atmega328p, firmware 1.1.0, identity [left out], running same`,
      `3 ${at} problem: board 2, code portBusy, 2 lines`,
      `4 ${at} nudge: board 1, site 0, from 18000, to 20500`,
      `5 ${at} keep: board 1, keeps 2, crc AB04, on true, place null`,
      `6 ${at} remark`,
    ]);
  });

  it('has the end of a long log', () => {
    const log = Array.from({ length: 1200 }, (_, index): LogEntry => {
      return { number: index + 1, at: NOON.toISOString(), kind: 'remark', text: 'Again.' };
    });
    const lines = section(makeReport(parts({ log })).text, 'Log');
    expect(lines).toHaveLength(501);
    expect(lines[0]).toBe('the last 500 of 1200 entries');
    expect(lines[1]).toMatch(/^701 /);
  });

  it('has what was said, decoded, without names and marks', () => {
    const recorder = heard(({ ask, answer, stream }) => {
      ask(encodeRequest(1, 'who'));
      answer(encodeOk(1, ['amberwick', 1, '1.1.0', 1, 'atmega328p', '0BADCAFE', 'AB04', hexOf('Town board')]));
      ask(encodeRequest(2, 'label', ['0BADCAFE', hexOf('Town board')]));
      answer(encodeOk(2));
      ask(encodeRequest(3, 'dial', [0, 1, 18_000]));
      answer(encodeNo(3, 4));
      ask(encodeRequest(4, 'part', [32, '0102030405']));
      ask(encodeRequest(5, 'read', ['run', 64]));
      answer(encodeOk(5, [64, 'FF01']));
      ask(encodeRequest(6, 'beat'));
      answer(encodeOk(6, [12_500]));
      answer(encodeEvent(0, 'row', [12_500, 1, 3]));
      answer('=06 ok 12500 0000\n');
      answer('login: anna\n');
      answer('=06 ok 5 \xff\n');
      stream.unplug();
    });
    recorder.note('toBoard', Uint8Array.of(0x55, 0x80, 0x00, 0x20), 'anything');
    const lines = section(
      makeReport(parts({ boards: [board({ frames: recorder.recent() })] })).text,
      'Last lines of board 1',
    );
    const sum = (text: string): string => text.replace(/ [0-9A-F]{4} {2}/, ' SUM  ');
    expect(lines.map((line) => sum(line.slice('12:00:00.250 '.length)))).toEqual([
      '> opened  | The port was opened.',
      '> ?01 who SUM  | Asks who is there.',
      '< =01 ok amberwick 1 1.1.0 1 atmega328p [left out] AB04 [left out]  | An Amberwick board: protocol 1, firmware 1.1.0, store 1, chip atmega328p; identity and name are left out here.',
      '> ?02 label [left out]  | Write identity and name, which are left out here.',
      '< =02 ok SUM  | Done: label.',
      '> ?03 dial 0 1 18000 SUM  | Set dial 1 of site 0 to 18.0 s.',
      '< =03 no 4 - outside limits  | Refused with code 4: outside limits.',
      '> ?04 part 32 [5 bytes]  | Stage 5 bytes from byte 32 on.',
      '> ?05 read run 64 SUM  | Asks for the running table from byte 64 on.',
      '< =05 ok 64 [2 bytes]  | 2 bytes from byte 64 on.',
      '> ?06 beat SUM  | Says that the host is there.',
      '< =06 ok 12500 SUM  | The board time is 12.5 s.',
      '< !00 row 12500 1 3 SUM  | Site 1 entered row 3 at 12.5 s.',
      '< [17 bytes, 17 of them printable]  | Noise: a damaged line that begins with "=06 ok".',
      '< [11 bytes, 11 of them printable]  | Noise.',
      '< [10 bytes, 9 of them printable]  | Noise: a damaged line that begins with "=06 ok".',
      '< closed: The cable was pulled.  | The connection ended.',
      '> 55 80 00 20  | Set the address to byte 256.',
    ]);
  });

  it('keeps the counts of heartbeats and what was sent again', () => {
    const recorder = heard(({ ask, answer }) => {
      for (const sequence of [1, 2, 3]) {
        ask(encodeRequest(sequence, 'beat'));
        answer(encodeOk(sequence, [sequence * 500]));
      }
      ask(encodeRequest(4, 'snap'));
      ask(encodeRequest(4, 'snap'));
    });
    const text = makeReport(parts({ boards: [board({ frames: recorder.recent() })] })).text;
    expect(text).toContain('| Says that the host is there. 3 beats, only the last is shown.\n');
    expect(text).toContain('| The board time is 1.5 s. 3 beats, only the last is shown.\n');
    expect(text).toContain('| Asks for a snapshot of the board. Sent again.\n');
  });

  it('shows of the talk with a boot loader what it was about, not what was in it', () => {
    const recorder = new FrameRecorder(() => NOON);
    const stream = new FakeStream();
    const loader = tapLoader(recorder, { ...lineOf(stream), pulseReset: async () => false }, 57_600);
    const page = new Array<number>(128).fill(0x41);
    loader.write(Uint8Array.of(0x64, 0x00, 0x80, 0x46, ...page, 0x20));
    stream.say('\x14\x1e\x95\x0f\x10');
    loader.write(Uint8Array.of(0x74, 0x00, 0x80, 0x46, 0x20));
    stream.say(`\x14${'A'.repeat(128)}\x10`);
    loader.write(Uint8Array.of(0x30, 0x20));
    stream.say('Hello from another program');
    stream.unplug();
    const frames = recorder.recent();
    const lines = section(makeReport(parts({ boards: [board({ frames })] })).text, 'Last lines of board 1');
    expect(lines.map((line) => line.slice('12:00:00.250 '.length))).toEqual([
      '> opened at 57600 baud  | The port was opened.',
      '> 64 00 80 46 41 41 ... (133 bytes)  | Write a page of 128 bytes.',
      '< 14 1E 95 0F 10  | The boot loader: 3 bytes.',
      '> 74 00 80 46 20  | Asks for a page of 128 bytes.',
      '< [130 bytes]  | The boot loader: 128 bytes.',
      '> 30 20  | Asks whether the boot loader listens.',
      '< [26 bytes]  | From the boot loader, not as it should be: 26 bytes.',
      '< closed: The cable was pulled.  | The connection ended.',
    ]);
  });

  it('counts what a board has to do', () => {
    const example = openDocument(EXAMPLE.name, EXAMPLE.text, 1);
    const plan = example.ok ? example.value.boards[0] : undefined;
    expect(countsOf(plan?.compiled?.table)).toEqual({ sites: 3, lamps: 14, inputs: 0, groups: 0, chips: 0 });
    expect(countsOf(undefined)).toBeNull();
  });
});

describe('nothing private', () => {
  /** Each stands for something that a person would not tell to strangers. */
  const MARKS = {
    layoutName: 'Quillmarsh',
    fileName: 'wexcombe-attic',
    boardId: 'fennimore',
    boardName: 'Hartsby Dock',
    siteName: 'Orlop Steps',
    remark: 'Zebedee is late',
    user: 'pemberlyann',
    home: 'kirrinloft',
    hostName: 'thistlebox',
    usbSerial: 'A50285BIQX',
    identity: '5EC2E71D',
    address: '192.168.77.13',
    cause: 'gribblevolt',
    foreign: 'wifi-p4ssphrase',
    maker: 'Nettlefold',
    kernel: 'custombuilt',
    data: 'brackenfile',
    frame: 'marrowline',
  } as const;

  const path = `/home/${MARKS.home}/${MARKS.user}/${MARKS.fileName}.json`;
  const inWords = Object.values(MARKS).join(' ');
  const found = {
    ...{ code: 'uploadRefused', what: inWords, why: inWords, next: inWords },
    detail: `code 29, ENOENT: ${path} ${MARKS.hostName} ${MARKS.address} ${MARKS.cause}`,
  };

  /** A board that carries a mark in every place that takes a word. */
  function marked(port: string): ReportBoard {
    const name = MARKS.boardName;
    const recorder = heard(({ ask, answer, stream }) => {
      answer(encodeOk(9, ['amberwick', 1, '1.1.0', 1, 'atmega328p', MARKS.identity, 'AB04', hexOf(name)]));
      answer(encodeOk(9, [MARKS.frame, hexOf(name)]));
      ask(encodeRequest(1, 'who'));
      answer(encodeOk(1, ['amberwick', 1, MARKS.frame, 1, MARKS.frame, MARKS.identity, 'AB04', hexOf(name)]));
      answer(encodeOk(1, ['amberwick', 1, '1.1.0', 1, 'atmega328p', MARKS.identity, 'AB04', hexOf(name), MARKS.frame]));
      answer(encodeOk(1, [MARKS.frame]));
      ask(encodeRequest(2, 'label', [MARKS.identity, hexOf(name)]));
      answer(encodeRequest(2, 'label', [MARKS.identity, hexOf(name)]));
      answer(encodeOk(2, [MARKS.identity, hexOf(name)]));
      ask(encodeRequest(3, 'state'));
      answer(encodeOk(3, [12, MARKS.frame, 4980, 312, 'run', '03', 1, 2]));
      ask(encodeRequest(4, MARKS.frame, [MARKS.identity]));
      answer(encodeOk(4));
      answer(encodeOk(4, [hexOf(name)]));
      answer(encodeEvent(1, 'hello', [1, MARKS.frame, '00']));
      answer(encodeEvent(2, MARKS.frame, [hexOf(name)]));
      answer(encodeNo(5, 77).replace('unknown reason', MARKS.frame));
      ask(encodeRequest(6, 'part', [0, hexOf(name)]));
      ask(encodeRequest(7, 'read', ['kept', 0]));
      answer(encodeOk(7, [0, hexOf(name)]));
      // The same with a bit turned over on the way: noise that still spells the name.
      answer(`=01 ok amberwick 1 1.1.0 1 atmega328p ${MARKS.identity} AB04 ${hexOf(name)} 0000\n`);
      for (const mark of Object.values(MARKS)) answer(`${mark}\n`);
      answer(`${MARKS.foreign}${'x'.repeat(200)}${MARKS.frame}\n`);
      answer(MARKS.frame);
      stream.toHost = () => [];
      void stream.close();
    });
    const failing = new FakeStream();
    const other = tapLoader(recorder, { ...lineOf(failing), pulseReset: async () => true }, 57_600);
    other.write(bytesOf(MARKS.frame));
    failing.say(MARKS.frame);
    recorder.mark('fromBoard', `closed: The port failed: ${path}`, `The connection ended. ${path}`);
    recorder.note('toBoard', Uint8Array.of(0x30, 0x20), `${MARKS.frame} ${path}`);
    return {
      state: {
        ...STATE,
        ...{ board: MARKS.boardId, port, problem: found, master: MARKS.data, resetCause: MARKS.data },
        who: { firmware: MARKS.frame, protocol: 1, chip: MARKS.frame, identity: MARKS.identity, name },
        firmware: { match: 'same', shipped: MARKS.data },
        silicon: { name: MARKS.data, totalMilliamps: 100 },
        copiedAt: MARKS.data,
      },
      who: { ...WHO, firmware: MARKS.frame, chip: MARKS.frame, identity: MARKS.identity, name },
      told: TOLD,
      counts: COUNTS,
      frames: recorder.recent(),
    };
  }

  const PORTS = [
    `/dev/tty.usbserial-${MARKS.usbSerial}`,
    `/dev/cu.usbmodem${MARKS.usbSerial}1`,
    `/dev/cu.${MARKS.boardName}-SPPDev`,
    `/dev/serial/by-id/usb-${MARKS.maker}_${MARKS.usbSerial}-if00-port0`,
    `/dev/serial/by-path/${MARKS.usbSerial}`,
    `/dev/${MARKS.hostName}`,
    `/home/${MARKS.user}/pty`,
    `\\\\.\\${MARKS.usbSerial}`,
    `virtual:${MARKS.boardId}`,
    `/dev/ttyUSB0${MARKS.usbSerial}`,
  ];

  const log = (['document', 'remark', 'problem', 'connection', 'firmware', 'fault'] as const).map(
    (kind, index): LogEntry => ({
      ...{ number: index + 1, at: NOON.toISOString(), kind, board: MARKS.boardId, boardMs: 5, text: inWords },
      data: {
        ...{ file: path, identity: MARKS.identity, copy: MARKS.identity, code: MARKS.data, firmware: MARKS.data },
        ...{ name: MARKS.boardName, port: PORTS[index] ?? null, crc: MARKS.data, [MARKS.boardName]: 1, count: 7 },
      },
      frames: [inWords],
    }),
  );

  const report = makeReport({
    at: NOON,
    version: '0.1.0',
    shell: 'browser',
    system: { ...SYSTEM, release: `6.8.0-${MARKS.kernel}-${MARKS.hostName}` },
    ports: PORTS.map((port, index) => ({
      ...{ path: port, virtual: port.startsWith('virtual'), likely: true, board: MARKS.boardId },
      label:
        [`${MARKS.maker}, 0403:6001`, `USB serial (${MARKS.maker})`, `Virtual board for ${MARKS.boardName}`][
          index % 3
        ] ?? '',
    })),
    boards: PORTS.map(marked),
    log,
  });

  /** The ways in which a word may hide. */
  const FORMS: readonly (readonly [string, (mark: string) => string])[] = [
    ['as it is', (mark) => mark],
    ['in hexadecimal', hexOf],
    ['in hexadecimal with spaces', (mark) => hexOf(mark).replace(/(..)(?=.)/g, '$1 ')],
    ['as an address has it', encodeURIComponent],
    ['in base 64', (mark) => Buffer.from(mark).toString('base64').replace(/=+$/, '')],
    ['backwards', (mark) => [...mark].reverse().join('')],
  ];

  it.each(Object.entries(MARKS))('of the %s is in it, in no form', (_, mark) => {
    const text = report.text.toLowerCase();
    for (const [form, write] of FORMS) {
      expect({ form, isIn: text.includes(write(mark).toLowerCase()) }).toEqual({ form, isIn: false });
      // A half of it would be too much.
      const half = write(mark.slice(0, Math.ceil(mark.length / 2))).toLowerCase();
      expect({ form, half, isIn: text.includes(half) }).toEqual({ form, half, isIn: false });
    }
    expect(report.name).not.toContain(mark);
  });

  it('is missing by chance: the marks were all there, and what may be told still is', () => {
    expect(report.text).toContain('uploadRefused, code 29');
    expect(section(report.text, 'Ports')).toHaveLength(PORTS.length);
    expect(section(report.text, 'Log')[0]).toMatch(/^1 \S+ document: board 1, board time 5 ms, .*count 7, 1 line$/);
    const said = section(report.text, 'Last lines of board 1').join('\n');
    expect(said).toContain('Write identity and name, which are left out here.');
    expect(said).toContain('An echo, not meant for this direction');
    expect(said).toContain('Asks whether the boot loader listens.');
    expect(said.match(/printable\]/g)?.length).toBeGreaterThan(Object.keys(MARKS).length);
    // The frames themselves had them all.
    const frames = JSON.stringify(marked(PORTS[0] ?? '').frames);
    for (const mark of [MARKS.identity, hexOf(MARKS.boardName), MARKS.frame, MARKS.user])
      expect(frames).toContain(mark);
  });
});
