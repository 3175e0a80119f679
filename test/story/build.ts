/** Entries of a log, a line each: the seconds since 19:00 on 30 November 2026, the kind, the text. */
import type { LogEntry, LogKind } from '../../shared/workbench/contract.ts';

const EVENING = Date.UTC(2026, 10, 30, 19, 0, 0);

export type Told = readonly [seconds: number, kind: LogKind, text: string, more?: Partial<LogEntry>];

export function logOf(...told: readonly Told[]): LogEntry[] {
  return told.map(([seconds, kind, text, more], index) => ({
    number: index + 1,
    at: new Date(EVENING + seconds * 1000).toISOString(),
    kind,
    text,
    ...more,
  }));
}

/** A nudge of the green of Fore Street, or of another dial, in whole seconds of green. */
export function nudge(seconds: number, from: number, to: number, { dial = 0, board = 'town' } = {}): Told {
  const name = ['Market Cross green of Fore Street', 'Market Cross all-red'][dial] ?? `Market Cross dial ${dial}`;
  const boardName = board === 'town' ? 'Town board' : 'Harbour board';
  return [
    seconds,
    'nudge',
    `Changed ${name} from ${from}.0 s to ${to}.0 s on ${boardName}.`,
    {
      board,
      names: { board: boardName, site: 'Market Cross', dial: name },
      data: { site: 0, dial, from: from * 1000, to: to * 1000 },
    },
  ];
}

export const lost = (seconds: number): Told => [
  seconds,
  'connection',
  'The connection to Town board broke off.',
  { board: 'town', names: { board: 'Town board' }, data: { problem: 'cableOut' }, frames: ['19:00:00.000 < closed'] },
];

export const back = (seconds: number): Told => [
  seconds,
  'connection',
  'Town board came back at ttyUSB0: ATmega328P, firmware 1.3.0. It ran the open layout.',
  { board: 'town', names: { board: 'Town board' }, data: { identity: '12345678', running: 'same' } },
];

export const keep = (seconds: number, board = 'town'): Told => [
  seconds,
  'keep',
  'Kept on Town board: Market Cross green of Fore Street 22.0 s.',
  { board, names: { board: 'Town board' }, data: { keeps: 3, crc: 'AB04' } },
];
