/** The folder of layouts: what is in it, by names alone. Nothing outside it can be reached by a name. */
import { lstatSync, mkdirSync, readdirSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileName, hasEnding } from '../../../shared/workbench/file-names.ts';

export interface FoundFile {
  readonly name: string;
  readonly path: string;
  /** Last changed. */
  readonly at: Date;
}

/** More than a person looks through. */
const MOST = 500;

export class LayoutsFolder {
  readonly path: string;

  /** It is made when something is saved to it first. */
  constructor(path: string) {
    this.path = path;
  }

  /** Layout files, the newest first. A folder that is not there yet is empty. */
  list(): FoundFile[] {
    let names: string[];
    try {
      names = readdirSync(this.path);
    } catch {
      return [];
    }
    return names
      .flatMap((name): FoundFile[] => {
        const path = hasEnding(name) ? this.pathOf(name) : null;
        const stats = path === null ? undefined : lstatSync(path, { throwIfNoEntry: false });
        return path !== null && stats?.isFile() ? [{ name, path, at: stats.mtime }] : [];
      })
      .sort((a, b) => b.at.getTime() - a.at.getTime())
      .slice(0, MOST);
  }

  /** Where a file of this name is or would be; null for a name that is none, or that leads somewhere else. */
  pathOf(name: string): string | null {
    const checked = fileName(name);
    if (!checked.ok || checked.name !== name.normalize('NFC')) return null;
    const path = join(this.path, name);
    if (dirname(path) !== join(this.path)) return null;
    try {
      // A link could lead anywhere.
      const stats = lstatSync(path, { throwIfNoEntry: false });
      return stats === undefined || stats.isFile() ? path : null;
    } catch (error) {
      // Where the folder should be stands a file: saving will say so.
      return (error as NodeJS.ErrnoException).code === 'ENOTDIR' ? path : null;
    }
  }

  /** Throws what the system says when it cannot be made. */
  make(): void {
    mkdirSync(this.path, { recursive: true });
    realpathSync(this.path);
  }
}
