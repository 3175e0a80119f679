/**
 * The text for asking for help: how the app, the ports, the boards and the talk
 * with them are, with nothing private in it. What may stand in it is let in
 * word by word (`report-words.ts`, `report-frames.ts`).
 */
import { capital } from '../../../shared/findings/capital.ts';
import type { BoardState as ToldState, Who } from '../../../shared/link/requests.ts';
import { FLAGS } from '../../../shared/link/vocabulary.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import type { BoardState, Frame, LogEntry, PortInfo } from '../../../shared/workbench/contract.ts';
import { isBlank } from '../book/board-book.ts';
import { frameLines } from './report-frames.ts';
import { dataText, known, LEFT_OUT, momentText, portKind, portText, versionText } from './report-words.ts';
import type { SystemFacts } from './system-facts.ts';

/** Of a longer log the last entries. */
const MOST_ENTRIES = 500;

export interface ReportBoard {
  readonly state: BoardState;
  /** The greeting, of the board that is connected or was last; null before the first. */
  readonly who: Who | null;
  /** Its answer to `state`; null while nobody answers. */
  readonly told: ToldState | null;
  readonly counts: ReportCounts | null;
  readonly frames: readonly Frame[];
}

export interface ReportCounts {
  readonly sites: number;
  readonly lamps: number;
  readonly inputs: number;
  readonly groups: number;
  /** Shift registers. */
  readonly chips: number;
}

export interface ReportParts {
  readonly at: Date;
  readonly version: string;
  readonly shell: 'electron' | 'browser' | 'command line';
  readonly system: SystemFacts;
  readonly ports: readonly PortInfo[];
  readonly boards: readonly ReportBoard[];
  readonly log: readonly LogEntry[];
}

/** How much a board has to do, in numbers only. */
export function countsOf(table: BoardTable | undefined): ReportCounts | null {
  if (!table) return null;
  const { sites, lamps, inputs, groups, chain } = table;
  return {
    sites: sites.length,
    lamps: lamps.length,
    inputs: inputs.length,
    groups: groups.length,
    chips: chain?.chips ?? 0,
  };
}

/** `name` is that of the file to save it in. */
export function makeReport(parts: ReportParts): { readonly name: string; readonly text: string } {
  const made = parts.at.toISOString();
  const number = boardNumbers(parts);
  const lines = [
    'Amberwick report, for asking for help: how the app, the boards and the talk with them are.',
    'It has no names, file names, remarks, addresses or serial numbers in it. Read it before you send it.',
    '',
    ...section('Made with', appFacts(parts, made)),
    ...section('Ports', portFacts(parts.ports, number)),
    ...parts.boards.flatMap((board) => section(number(board.state.board), boardFacts(board))),
    ...section('Log', logLines(parts.log, number)),
    ...parts.boards.flatMap((board) =>
      section(`Last lines of ${number(board.state.board)}, > to the board, < from it, times in UTC`, [
        ...frameLines(board.frames),
      ]),
    ),
  ];
  const stamp = made.replace(/\.\d+Z$/, 'Z').replaceAll(':', '-');
  return { name: `amberwick-report-${stamp}.txt`, text: `${lines.join('\n').trimEnd()}\n` };
}

function section(title: string, lines: readonly string[]): string[] {
  const body = lines.length === 0 ? ['none'] : lines;
  return [capital(title), ...body.map((line) => `  ${line}`.trimEnd()), ''];
}

/** Boards by number: those of the layout first, then others of the log. */
function boardNumbers({ boards, log }: ReportParts): (board: string) => string {
  const ids = new Set([...boards.map(({ state }) => state.board), ...log.flatMap(({ board }) => board ?? [])]);
  const order = [...ids];
  return (board) => `board ${order.indexOf(board) + 1}`;
}

const SHELLS = { electron: 'in a window', browser: 'in a browser', 'command line': 'on the command line' } as const;

function appFacts({ version, shell, system }: ReportParts, made: string): string[] {
  const wsl = /microsoft/i.test(system.release) ? ' (in Windows)' : '';
  // What follows the numbers of a release may be the name that its owner built it with.
  const release = /^\d{1,5}(\.\d{1,6}){0,3}/.exec(system.release)?.[0] ?? LEFT_OUT;
  const short = (word: string): string => (/^[a-z0-9]{2,10}$/.test(word) ? word : LEFT_OUT);
  return table([
    ['time', made],
    ['amberwick', `${versionText(version)}, ${SHELLS[shell]}`],
    ['system', `${short(system.platform)} ${short(system.arch)}, release ${release}${wsl}`],
    ['node', versionText(system.node)],
    ['electron', versionText(system.electron)],
    ['serialport', versionText(system.serialport)],
  ]);
}

function portFacts(ports: readonly PortInfo[], number: (board: string) => string): string[] {
  return ports.map(({ path, label, virtual, likely, board }) =>
    [
      portText(path),
      ...(virtual ? [] : [portKind(label)]),
      ...(likely ? ['likely a board'] : []),
      ...(board === null ? [] : [`held by ${number(board)}`]),
    ].join(', '),
  );
}

function boardFacts({ state, who, told, counts }: ReportBoard): string[] {
  const flags = told && [...FLAGS].filter(({ key }) => told.flags.has(key)).map(({ key }) => key);
  return table([
    ['port', state.port === null ? 'none' : portText(state.port)],
    ['link', `${known(state.link)}${state.quiet ? ', quiet' : ''}`],
    ['problem', problemText(state)],
    ['opening resets it', state.openingResets === null ? 'not known' : yesNo(state.openingResets)],
    ...(state.virtual ? [['virtual', `${state.powered ? 'on' : 'off'}, speed ${state.speed ?? '-'}`] as const] : []),
    ['chip', who === null ? 'not known' : known(who.chip)],
    ['silicon', state.silicon ? `${known(state.silicon.name)}, ${state.silicon.totalMilliamps} mA` : 'not known'],
    [
      'firmware',
      who === null
        ? `not known (${known(state.firmware.match)})`
        : `${versionText(who.firmware)} (${known(state.firmware.match)}), protocol ${who.protocol}, store ${who.store}`,
    ],
    ['shipped firmware', versionText(state.firmware.shipped)],
    [
      'identity, name',
      who === null ? 'not known' : `${isBlank(who.identity) ? 'blank' : 'set'}, ${who.name === '' ? 'blank' : 'set'}`,
    ],
    ['runs, keeps', `${known(state.running)}, ${known(state.kept)}`],
    ['state', `master ${known(state.master)}${state.unkept ? ', unkept' : ''}${state.paused ? ', paused' : ''}`],
    ['faults by site', state.faults.join(' ') || 'none'],
    ['held sites', String(state.held.filter((held) => held).length)],
    ['kept so far', counted(state.keeps, 'time')],
    ['supply', state.supplyMillivolts === null ? 'not known' : `${state.supplyMillivolts} mV`],
    ['reset cause', known(state.resetCause)],
    ['flags', flags === null ? 'not known' : flags.join(', ') || 'none'],
    ...(told
      ? ([
          ['up for', `${told.seconds} s`],
          ['lines dropped', String(told.badLines)],
          ['stack never used', `${told.stack} bytes`],
        ] as const)
      : []),
    ['task', taskText(state.task)],
    ['copy here', state.copiedAt === null ? 'none' : momentText(state.copiedAt)],
    [
      'layout',
      counts === null
        ? 'not compiled'
        : Object.entries(counts)
            .map(([what, count]) => counted(count, COUNTED[what as keyof ReportCounts]))
            .join(', '),
    ],
  ]);
}

/** Of the details only the numbers of protocol codes and image places. */
function problemText({ problem }: BoardState): string {
  if (problem === null) return 'none';
  const details = problem.detail?.match(/\b(code|byte) \d{1,5}\b/g) ?? [];
  return [known(problem.code), ...details].join(', ');
}

function taskText(task: BoardState['task']): string {
  if (task === null) return 'none';
  const stage = task.stage === undefined ? '' : `, ${known(task.stage)}`;
  return `${known(task.name)}${stage}, ${task.done} of ${task.total}`;
}

/** Never the texts: they have names of places and what the person remarked. */
function logLines(log: readonly LogEntry[], number: (board: string) => string): string[] {
  const shown = log.slice(-MOST_ENTRIES);
  const cut = log.length > shown.length ? [`the last ${shown.length} of ${log.length} entries`] : [];
  return [
    ...cut,
    ...shown.map((entry) => {
      const parts = [
        ...(entry.board === undefined ? [] : [number(entry.board)]),
        ...(entry.boardMs === undefined ? [] : [`board time ${entry.boardMs} ms`]),
        ...(entry.data === undefined ? [] : [dataText(entry.data)]),
        ...(entry.frames === undefined ? [] : [counted(entry.frames.length, 'line')]),
      ].filter((part) => part !== '');
      const kind = /^[a-zA-Z]{2,12}$/.test(entry.kind) ? entry.kind : LEFT_OUT;
      return `${entry.number} ${momentText(entry.at)} ${kind}${parts.length > 0 ? `: ${parts.join(', ')}` : ''}`;
    }),
  ];
}

const COUNTED: Readonly<Record<keyof ReportCounts, string>> = {
  sites: 'site',
  lamps: 'lamp',
  inputs: 'input',
  groups: 'group',
  chips: 'shift register',
};

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
const yesNo = (value: boolean): string => (value ? 'yes' : 'no');

function table(rows: readonly (readonly [name: string, value: string])[]): string[] {
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, value]) => `${name.padEnd(width)}  ${value}`);
}
