/**
 * The layout that is open, as it is now. It is there as long as the app runs; what is found at the next start was
 * open when the app was killed, the system fell over or the power failed, and nobody has had a chance to save it.
 */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { sweepUnfinished, writeWhole } from '../whole-file.ts';

const copy = z.object({ name: z.string().min(1), text: z.string() });

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

  note({ name, text }: OpenLayoutCopy): void {
    try {
      mkdirSync(this.folder, { recursive: true });
      writeWhole(this.file, JSON.stringify({ name, text }));
      this.failure = null;
    } catch (error) {
      this.failure = (error as Error).message;
    }
  }

  /** Null when the app was closed as it should be, or the copy cannot be read. */
  left(): OpenLayoutCopy | null {
    sweepUnfinished(this.folder);
    try {
      const read = copy.safeParse(JSON.parse(readFileSync(this.file, 'utf8')));
      return read.success ? read.data : null;
    } catch {
      return null;
    }
  }

  /** The app is being closed: from now on it is the person's file that counts. */
  clear(): void {
    rmSync(this.file, { force: true });
  }
}
