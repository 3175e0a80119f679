/** Session logs as JSON Lines: one entry a line, nothing left out. */
import { z } from 'zod';
import type { LogEntry } from '../contract.ts';

/** Only what every reader relies on is looked at; what later versions add is let through. */
const shape = z.looseObject({
  number: z.int().min(1),
  at: z.string(),
  kind: z.string(),
  text: z.string(),
  board: z.string().optional(),
  boardMs: z.number().optional(),
  names: z.record(z.string(), z.string()).optional(),
  data: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null()])).optional(),
  frames: z.array(z.string()).optional(),
});

export function linesOf(entries: readonly LogEntry[]): string {
  return entries.map((entry) => `${JSON.stringify(entry)}\n`).join('');
}

export interface ReadLines {
  readonly entries: readonly LogEntry[];
  /** Numbers of lines that are no entry, from 1. */
  readonly unreadable: readonly number[];
}

/** Reads what can be read. The newline at the end is no line. */
export function readLines(text: string): ReadLines {
  const entries: LogEntry[] = [];
  const unreadable: number[] = [];
  const lines = text.split('\n');
  if (lines.at(-1) === '') lines.pop();
  for (const [index, line] of lines.entries()) {
    const entry = readLine(line);
    if (entry) entries.push(entry);
    else unreadable.push(index + 1);
  }
  return { entries, unreadable };
}

function readLine(line: string): LogEntry | null {
  try {
    const read = shape.safeParse(JSON.parse(line));
    return read.success ? (read.data as unknown as LogEntry) : null;
  } catch {
    return null;
  }
}
