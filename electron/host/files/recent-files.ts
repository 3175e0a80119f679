/** The files that were opened or saved last. The panel knows them by their ids. */
import { join } from 'node:path';
import { z } from 'zod';
import { shortDigest } from '../digest.ts';
import { readJson, writeJson } from '../json-file.ts';

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
    return (readJson(this.file, list) ?? []).map(({ path, at }) => ({ id: shortDigest(path), path, at }));
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
      writeJson(
        this.file,
        files.map(({ path, at }) => ({ path, at })),
      );
    } catch {
      // A list of conveniences: without it everything can still be opened.
    }
  }
}
