/** The files that were opened or saved last. The panel knows them by their ids. */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { z } from 'zod';
import { writeWhole } from '../whole-file.ts';

const list = z.array(z.object({ path: z.string().min(1), at: z.iso.datetime() }));

export interface RecentFile {
  readonly id: string;
  readonly path: string;
  /** When it was opened or saved last, ISO 8601. */
  readonly at: string;
}

const MOST = 12;

export class RecentFiles {
  private readonly file: string;
  private readonly now: () => Date;

  constructor(folder: string, now: () => Date) {
    this.file = join(folder, 'recent.json');
    this.now = now;
  }

  /** The newest first; empty where the list cannot be read. */
  list(): RecentFile[] {
    try {
      const read = list.safeParse(JSON.parse(readFileSync(this.file, 'utf8')));
      return read.success ? read.data.map(({ path, at }) => ({ id: idOf(path), path, at })) : [];
    } catch {
      return [];
    }
  }

  find(id: string): RecentFile | null {
    return this.list().find((it) => it.id === id) ?? null;
  }

  note(path: string): void {
    const others = this.list().filter((it) => it.path !== path);
    this.write([{ path, at: this.now().toISOString() }, ...others].slice(0, MOST));
  }

  forget(id: string): void {
    this.write(this.list().filter((it) => it.id !== id));
  }

  private write(files: readonly { readonly path: string; readonly at: string }[]): void {
    try {
      mkdirSync(dirname(this.file), { recursive: true });
      writeWhole(this.file, JSON.stringify(files.map(({ path, at }) => ({ path, at }))));
    } catch {
      // A list of conveniences: without it everything can still be opened.
    }
  }
}

function idOf(path: string): string {
  return createHash('sha256').update(path).digest('hex').slice(0, 16);
}
