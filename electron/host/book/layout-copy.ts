/**
 * The layout that is open, as it is now, with the changes that its file does not have yet. It is written at every
 * change, so that the next start finds it whatever happened: the app closed, killed, or the power gone.
 */
import { join } from 'node:path';
import { z } from 'zod';
import { readJson, writeJson } from '../json-file.ts';
import { sweepUnfinished } from '../whole-file.ts';

const copy = z.object({
  name: z.string().min(1),
  text: z.string(),
  /** Its file; absent: it has none. */
  path: z.string().min(1).nullish(),
  /** What its file held when it was read or written last; null: it was never in one. Absent: as `text`. */
  base: z.string().nullish(),
  /** The app was closed as it should be. */
  closed: z.boolean().optional(),
});

export type OpenLayoutCopy = z.infer<typeof copy>;

export class LayoutCopy {
  /** Why the disk does not take it; null in good health. */
  failure: string | null = null;
  private readonly folder: string;
  private readonly file: string;

  /** `folder` is made when something is noted first. */
  constructor(folder: string) {
    this.folder = folder;
    this.file = join(folder, 'open.json');
  }

  note(open: OpenLayoutCopy): void {
    try {
      writeJson(this.file, open);
      this.failure = null;
    } catch (error) {
      this.failure = (error as Error).message;
    }
  }

  /** Null where nothing was open before, or the copy cannot be read. */
  left(): OpenLayoutCopy | null {
    sweepUnfinished(this.folder);
    return readJson(this.file, copy);
  }
}
