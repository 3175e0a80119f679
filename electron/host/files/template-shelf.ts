/** Sites that the person has kept to be used again, one file each. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { SiteTemplate } from '../../../shared/workbench/calls/files.ts';
import { writeWhole } from '../whole-file.ts';

const template = z.object({ name: z.string().min(1).max(80), kind: z.string().max(40), text: z.string().max(400_000) });

const NAME = /^[0-9a-f]{16}\.json$/;
/** More than a person looks through. */
const MOST = 200;

export class TemplateShelf {
  private readonly folder: string;

  /** `folder` is made when something is kept first. */
  constructor(folder: string) {
    this.folder = folder;
  }

  /** By name. What cannot be read is left out. */
  list(): SiteTemplate[] {
    let names: string[];
    try {
      names = readdirSync(this.folder).filter((name) => NAME.test(name));
    } catch {
      return [];
    }
    return names
      .slice(0, MOST)
      .flatMap((name): SiteTemplate[] => {
        try {
          const read = template.safeParse(JSON.parse(readFileSync(join(this.folder, name), 'utf8')));
          return read.success ? [{ id: name.slice(0, 16), ...read.data }] : [];
        } catch {
          return [];
        }
      })
      .sort((a, b) => a.name.localeCompare(b.name));
  }

  /** One of the same name is replaced. Throws what the system says when it cannot. */
  keep(kept: Omit<SiteTemplate, 'id'>): void {
    mkdirSync(this.folder, { recursive: true });
    writeWhole(join(this.folder, `${idOf(kept.name)}.json`), JSON.stringify(kept));
  }

  /** False where there is none of this id. */
  drop(id: string): boolean {
    if (!NAME.test(`${id}.json`) || !this.list().some((it) => it.id === id)) return false;
    rmSync(join(this.folder, `${id}.json`), { force: true });
    return true;
  }
}

function idOf(name: string): string {
  return createHash('sha256').update(name).digest('hex').slice(0, 16);
}
