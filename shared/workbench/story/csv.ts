/** A session log as a table for spreadsheets, after RFC 4180. */
import type { LogEntry } from '../contract.ts';
import { isoDate, momentMs, secondsText, wallOf, type Zone } from './moment.ts';
import { boardOf, dialOf, siteOf, timesOf } from './named.ts';
import { correctedBy } from './notes.ts';

export interface CsvRow {
  /** File name of the session. */
  readonly session: string;
  readonly entry: LogEntry;
}

/** The columns, left to right: the name in the first line, and what stands under it. */
const COLUMNS: readonly {
  readonly name: string;
  readonly value: (row: CsvRow, zone: Zone) => string | number | null;
}[] = [
  { name: 'session', value: ({ session }) => session },
  { name: 'number', value: ({ entry }) => entry.number },
  // Wall clock of the computer that wrote the table.
  { name: 'date', value: ({ entry }, zone) => localOf(entry, zone, isoDate) },
  { name: 'time', value: ({ entry }, zone) => localOf(entry, zone, secondsText) },
  { name: 'moment', value: ({ entry }) => entry.at },
  { name: 'kind', value: ({ entry }) => entry.kind },
  { name: 'board', value: ({ entry }) => boardOf(entry) },
  { name: 'site', value: ({ entry }) => siteOf(entry) },
  { name: 'dial', value: ({ entry }) => dialOf(entry) },
  { name: 'from ms', value: ({ entry }) => timesOf(entry)?.from ?? null },
  { name: 'to ms', value: ({ entry }) => timesOf(entry)?.to ?? null },
  { name: 'board ms', value: ({ entry }) => entry.boardMs ?? null },
  { name: 'text', value: ({ entry }) => entry.text },
  { name: 'photo', value: ({ entry: { kind, data } }) => (kind === 'photo' ? String(data?.path ?? '') : null) },
  { name: 'corrects', value: ({ entry }) => correctedBy(entry) },
  // Everything else that is exact, as JSON, and the lines before trouble.
  { name: 'data', value: ({ entry: { data } }) => (data ? JSON.stringify(data) : null) },
  { name: 'frames', value: ({ entry: { frames } }) => frames?.join('\n') ?? null },
];

export const CSV_COLUMNS: readonly string[] = COLUMNS.map(({ name }) => name);

/** Spreadsheets take a file for UTF-8 only when it begins with this. */
const BYTE_ORDER_MARK = '\uFEFF';

/** UTF-8 with a byte order mark, a line of names first, lines end with CR LF. */
export function csvOf(rows: readonly CsvRow[], zone: Zone): string {
  const lines = rows.map((row) => COLUMNS.map(({ value }) => cell(value(row, zone))).join(','));
  return `${BYTE_ORDER_MARK}${[CSV_COLUMNS.join(','), ...lines].map((line) => `${line}\r\n`).join('')}`;
}

function localOf({ at }: LogEntry, zone: Zone, say: (wall: ReturnType<typeof wallOf>) => string): string {
  const ms = momentMs(at);
  return ms === null ? '' : say(wallOf(ms, zone));
}

/** A spreadsheet would reckon with a text that begins like this, or ask another program: an apostrophe makes it a text. */
const FORMULA = /^[=+\-@\t\r]/;

function cell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
