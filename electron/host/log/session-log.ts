/**
 * The session log: one file a session, one line an entry, each on the disk
 * before anything else happens, so that a crash or a power cut loses nothing.
 */
import { closeSync, fsyncSync, mkdirSync, openSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { LogEntry, LogKind } from '../../../shared/workbench/contract.ts';
import { linesOf } from '../../../shared/workbench/story/lines.ts';
import { mendLogs } from './torn-line.ts';

export interface LogFacts {
  readonly board?: string;
  readonly boardMs?: number;
  readonly names?: NonNullable<LogEntry['names']>;
  readonly data?: NonNullable<LogEntry['data']>;
  /** On trouble: what was said on the line, a line each, as a recorder of frames gives its news. */
  readonly frames?: readonly string[];
}

export class SessionLog {
  /** File name without its folder. */
  readonly name: string;
  readonly file: string;
  readonly entries: LogEntry[] = [];
  /** Why the disk no longer takes lines; the session then goes on in memory. */
  failure: string | null = null;
  private readonly now: () => Date;
  private handle: number | null = null;

  /** `folder` is made when missing. `now` gives the wall-clock time. */
  constructor(folder: string, now: () => Date) {
    this.now = now;
    const started = now()
      .toISOString()
      .replace(/\.\d+Z$/, 'Z')
      .replaceAll(':', '-');
    mendLogs(folder);
    const opened = openNew(folder, started);
    this.name = opened.name;
    this.file = join(folder, opened.name);
    this.handle = opened.handle;
    this.failure = opened.failure;
  }

  /** Adds one entry; `text` is one line in the past tense, what a person wrote may have several. */
  add(kind: LogKind, text: string, facts: LogFacts = {}): LogEntry {
    const entry: LogEntry = {
      number: this.entries.length + 1,
      at: this.now().toISOString(),
      kind,
      ...(facts.board === undefined ? {} : { board: facts.board }),
      ...(facts.boardMs === undefined ? {} : { boardMs: facts.boardMs }),
      text: tidy(kind, text),
      ...(facts.names === undefined ? {} : { names: facts.names }),
      ...(facts.data === undefined ? {} : { data: facts.data }),
      ...(facts.frames === undefined || facts.frames.length === 0 ? {} : { frames: facts.frames }),
    };
    this.entries.push(entry);
    this.write(linesOf([entry]));
    return entry;
  }

  /** The whole session as JSON Lines. */
  text(): string {
    return linesOf(this.entries);
  }

  close(): void {
    if (this.handle !== null) closeSync(this.handle);
    this.handle = null;
  }

  private write(text: string): void {
    if (this.handle === null) return;
    try {
      // Goes on after a short write, as a disk that is nearly full gives one.
      writeFileSync(this.handle, text);
      fsyncSync(this.handle);
    } catch (error) {
      this.failure = (error as Error).message;
    }
  }
}

/** Kinds whose text a person wrote. */
const OWN_WORDS: ReadonlySet<LogKind> = new Set(['remark', 'photo']);

function tidy(kind: LogKind, text: string): string {
  if (!OWN_WORDS.has(kind)) return text.replace(/\s+/g, ' ').trim();
  const lines = text.replace(/\r\n?/g, '\n').split('\n');
  return lines
    .map((it) => it.replace(/\s+/g, ' ').trim())
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trim();
}

interface Opened {
  readonly name: string;
  readonly handle: number | null;
  readonly failure: string | null;
}

/** Two sessions that begin in the same second get files of their own. */
function openNew(folder: string, started: string): Opened {
  let name = `${started}.jsonl`;
  try {
    mkdirSync(folder, { recursive: true });
    for (let copy = 2; ; copy++) {
      try {
        return { name, handle: openSync(join(folder, name), 'ax'), failure: null };
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'EEXIST' || copy > 99) throw error;
        name = `${started}-${copy}.jsonl`;
      }
    }
  } catch (error) {
    return { name, handle: null, failure: (error as Error).message };
  }
}
