/** Layouts that were left with changes that no file has, when another one was opened. */
import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { readJson, writeJson } from '../json-file.ts';

const copy = z.object({
  name: z.string().min(1),
  text: z.string(),
  path: z.string().nullable(),
  base: z.string().nullable(),
  at: z.iso.datetime(),
});

export type LeftCopy = z.infer<typeof copy>;

/** Older ones than so many go: each was left knowingly, and all since could have been saved. */
const MOST = 20;
const NAME = /^left-(\d{13}-\d{3})\.json$/;

export class LeftCopies {
  private readonly folder: string;
  private readonly now: () => Date;
  private count = 0;

  constructor(folder: string, now: () => Date) {
    this.folder = folder;
    this.now = now;
  }

  /** The newest first. */
  list(): (LeftCopy & { readonly id: string })[] {
    return this.names().flatMap((id) => {
      const found = this.find(id);
      return found ? [{ id, ...found }] : [];
    });
  }

  find(id: string): LeftCopy | null {
    return NAME.test(fileOf(id)) ? readJson(join(this.folder, fileOf(id)), copy) : null;
  }

  /** Gives its id; null where the disk does not take it. */
  put(left: Omit<LeftCopy, 'at'>): string | null {
    const at = this.now();
    this.count = (this.count + 1) % 1000;
    const id = `${String(Math.max(0, at.getTime())).padStart(13, '0')}-${String(this.count).padStart(3, '0')}`;
    try {
      writeJson(join(this.folder, fileOf(id)), { ...left, at: at.toISOString() });
    } catch {
      return null;
    }
    for (const old of this.names().slice(MOST)) this.drop(old);
    return id;
  }

  drop(id: string): void {
    if (NAME.test(fileOf(id))) rmSync(join(this.folder, fileOf(id)), { force: true });
  }

  private names(): string[] {
    try {
      const found = readdirSync(this.folder).flatMap((name) => NAME.exec(name)?.[1] ?? []);
      return found.sort().reverse();
    } catch {
      return [];
    }
  }
}

function fileOf(id: string): string {
  return `left-${id}.json`;
}
