/**
 * What the lamp checks found, one page for each board of each layout. The lamps belong to the layout and not to the
 * chip: a board that takes the place of a broken one has the same wires on it.
 */
import { join } from 'node:path';
import { z } from 'zod';
import { CheckRecord } from '../../../shared/layout/check-record.ts';
import { shortDigest } from '../digest.ts';
import { readJson, writeJson } from '../json-file.ts';

const page = z.object({
  /** Name of the layout inside its file. */
  layout: z.string(),
  record: CheckRecord,
});

export class CheckBook {
  /** Why the disk does not take pages; they then last as long as the app runs. */
  failure: string | null = null;
  private readonly folder: string;
  private readonly noted = new Map<string, CheckRecord>();

  /** `folder` is made when something is noted first. */
  constructor(folder: string) {
    this.folder = folder;
  }

  /** Null when nothing was noted, or what was cannot be read. */
  recall(layout: string, board: string): CheckRecord | null {
    const file = this.file(layout, board);
    const noted = this.noted.get(file) ?? readRecord(file, layout, board);
    if (noted) this.noted.set(file, noted);
    return noted;
  }

  note(layout: string, record: CheckRecord): void {
    const file = this.file(layout, record.board);
    this.noted.set(file, record);
    try {
      writeJson(file, { layout, record });
      this.failure = null;
    } catch (error) {
      this.failure = (error as Error).message;
    }
  }

  /** Names of layouts are as long as people like, and in all letters; names of files are not. */
  private file(layout: string, board: string): string {
    return join(this.folder, `${board}-${shortDigest(layout)}.json`);
  }
}

function readRecord(file: string, layout: string, board: string): CheckRecord | null {
  const read = readJson(file, page);
  return read?.layout === layout && read.record.board === board ? read.record : null;
}
