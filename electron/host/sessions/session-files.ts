/**
 * The sessions on the disk of this computer. Names are read at once, files only when somebody asks for them, so that
 * thousands of sessions hold nothing up. Nothing outside the folder can be reached.
 */
import { lstat, readdir, readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { EarlierSession } from '../../../shared/workbench/calls/sessions.ts';
import { type ReadLines, readLines } from '../../../shared/workbench/story/lines.ts';
import { headOf, unreadableHead } from './head.ts';

/** Longest file that is read; ten years of evenings stay far below it, bytes. */
const LONGEST = 64 << 20;

export type SessionFile = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };

export class SessionFiles {
  private readonly folder: string;
  private readonly own: string;
  /** Heads by name, good as long as the file has that size and time. */
  private readonly heads = new Map<string, { readonly stamp: string; readonly head: EarlierSession }>();

  /** `own`: file of the session that is going on, which is left out. */
  constructor(folder: string, own: string) {
    this.folder = folder;
    this.own = own;
  }

  /** The newest first. A folder that is not there holds none. */
  async names(): Promise<string[]> {
    let found: string[];
    try {
      found = await readdir(this.folder);
    } catch {
      return [];
    }
    return found.filter((name) => this.isSession(name)).sort(newestFirst);
  }

  async head(name: string): Promise<EarlierSession> {
    const stamp = await this.stamp(name);
    const known = this.heads.get(name);
    if (stamp !== null && known?.stamp === stamp) return known.head;
    const file = await this.file(name);
    const head = file.ok ? headOf(name, readLines(file.text)) : unreadableHead(name, file.why);
    if (stamp !== null) this.heads.set(name, { stamp, head });
    return head;
  }

  async read(
    name: string,
  ): Promise<{ readonly ok: true; readonly lines: ReadLines } | Extract<SessionFile, { ok: false }>> {
    const file = await this.file(name);
    return file.ok ? { ok: true, lines: readLines(file.text) } : file;
  }

  /** As it stands on the disk. */
  async file(name: string): Promise<SessionFile> {
    const gone: SessionFile = { ok: false, why: 'It is no longer there.' };
    if (!this.isSession(name)) return gone;
    try {
      const about = await lstat(join(this.folder, name));
      if (!about.isFile()) return { ok: false, why: 'It is no file.' };
      if (about.size > LONGEST) return { ok: false, why: `It is longer than ${LONGEST >> 20} MB.` };
      return { ok: true, text: await readFile(join(this.folder, name), 'utf8') };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return gone;
      return { ok: false, why: `The system says: ${(error as Error).message}.` };
    }
  }

  /** A name alone: it leads to no other folder. */
  private isSession(name: string): boolean {
    return name === basename(name) && name.endsWith('.jsonl') && !name.startsWith('.') && name !== this.own;
  }

  private async stamp(name: string): Promise<string | null> {
    try {
      const { size, mtimeMs } = await lstat(join(this.folder, name));
      return `${size} ${mtimeMs}`;
    } catch {
      return null;
    }
  }
}

/** `2026-11-30T19-02-11Z.jsonl`, then `-2` for the next that began in the same second. */
function newestFirst(one: string, other: string): number {
  const [a, b] = [keyOf(one), keyOf(other)];
  return a < b ? 1 : a > b ? -1 : 0;
}

function keyOf(name: string): string {
  const [, stamp = name, copy = '1'] = /^(.*Z)(?:-(\d+))?\.jsonl$/.exec(name) ?? [];
  return `${stamp} ${copy.padStart(3, '0')}`;
}
