/** Sites that the person has kept to be used again, one file each. */
import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { SiteTemplate } from '../../../shared/workbench/calls/files.ts';
import { shortDigest } from '../digest.ts';
import { readJson, writeJson } from '../json-file.ts';

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
        const read = readJson(join(this.folder, name), template);
        return read ? [{ id: name.slice(0, 16), ...read }] : [];
      })
      .sort((a, b) => a.name.localeCompare(b.name));
  }

  /** One of the same name is replaced. Throws what the system says when it cannot. */
  keep(kept: Omit<SiteTemplate, 'id'>): void {
    writeJson(join(this.folder, `${shortDigest(kept.name)}.json`), kept);
  }

  /** False where there is none of this id. */
  drop(id: string): boolean {
    if (!NAME.test(`${id}.json`) || !this.list().some((it) => it.id === id)) return false;
    rmSync(join(this.folder, `${id}.json`), { force: true });
    return true;
  }
}
