/**
 * What this computer remembers of each board it has met: the name, the chip's
 * signature, its boot loader, and a copy of what it keeps. A broken board can
 * be replaced from it, and an update of the firmware loses nothing.
 */
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { fromHex, toHex } from '../../../shared/link/fields.ts';
import { writeWhole } from '../whole-file.ts';

const page = z.object({
  /** Eight hexadecimal digits; of a board without an identity `board-` and its id in the layout. */
  key: z.string(),
  /** Board of the layout that it last was. */
  board: z.string(),
  name: z.string(),
  chip: z.enum(['atmega328p', 'atmega2560']),
  /** Six hexadecimal digits, read when the firmware was written. */
  signature: z.string().nullable(),
  loader: z.enum(['v1-115200', 'v1-57600', 'v2-115200']).nullable(),
  /** `image` in hexadecimal; `at` is ISO 8601, wall-clock time. */
  kept: z.object({ image: z.string().regex(/^([0-9A-F]{2})+$/), at: z.string() }).nullable(),
});

type StoredPage = z.infer<typeof page>;

export interface KeptCopy {
  readonly image: Uint8Array;
  /** ISO 8601. */
  readonly at: string;
}

export interface BoardPage extends Omit<StoredPage, 'kept'> {
  readonly kept: KeptCopy | null;
}

type Learned = Partial<Pick<BoardPage, 'board' | 'name' | 'signature' | 'loader'>> & { readonly kept?: Uint8Array };

export class BoardBook {
  /** Why the disk does not take pages; they then last as long as the app runs. */
  failure: string | null = null;
  private readonly folder: string;
  private readonly now: () => Date;
  private readonly pages = new Map<string, StoredPage>();

  /** `folder` is made when missing. A page that cannot be read is passed over and stays on the disk. */
  constructor(folder: string, now: () => Date) {
    this.folder = folder;
    this.now = now;
    for (const found of readPages(folder)) this.pages.set(found.key, found);
  }

  /** Null for a board never met. */
  recall(key: string): BoardPage | null {
    const found = this.pages.get(key);
    return found ? opened(found) : null;
  }

  /** The copies of what boards in this place of the layout kept, newest first. */
  copiesFor(board: string, chip: BoardPage['chip']): BoardPage[] {
    return [...this.pages.values()]
      .filter((found) => found.board === board && found.chip === chip && found.kept !== null)
      .sort((a, b) => (b.kept?.at ?? '').localeCompare(a.kept?.at ?? ''))
      .map(opened);
  }

  /** Adds what is new to the board's page. What it keeps is copied only when it differs from the last copy. */
  learn(key: string, chip: BoardPage['chip'], { kept, ...facts }: Learned): void {
    const before = this.pages.get(key) ?? blankPage(key, chip);
    const image = kept && toHex(kept);
    const copy = image === undefined || image === before.kept?.image ? before.kept : { image, at: this.time() };
    const after: StoredPage = { ...before, chip, ...facts, kept: copy };
    if (JSON.stringify(after) === JSON.stringify(before)) return;
    this.pages.set(key, after);
    this.write(after);
  }

  private time(): string {
    return this.now().toISOString();
  }

  private write(content: StoredPage): void {
    try {
      mkdirSync(this.folder, { recursive: true });
      writeWhole(join(this.folder, `${encodeURIComponent(content.key)}.json`), JSON.stringify(content));
      this.failure = null;
    } catch (error) {
      this.failure = (error as Error).message;
    }
  }
}

/** A board's key in the book. A board without an identity is known by its place only. */
export function bookKey(identity: string, board: string): string {
  return isBlank(identity) ? `board-${board}` : identity;
}

export function isBlank(identity: string): boolean {
  return /^0*$/.test(identity);
}

function blankPage(key: string, chip: BoardPage['chip']): StoredPage {
  return { key, board: '', name: '', chip, signature: null, loader: null, kept: null };
}

function opened({ kept, ...facts }: StoredPage): BoardPage {
  return { ...facts, kept: kept && { image: fromHex(kept.image), at: kept.at } };
}

function readPages(folder: string): StoredPage[] {
  let files: string[];
  try {
    files = readdirSync(folder).filter((name) => name.endsWith('.json'));
  } catch {
    return [];
  }
  return files.flatMap((name) => {
    try {
      const read = page.safeParse(JSON.parse(readFileSync(join(folder, name), 'utf8')));
      return read.success ? [read.data] : [];
    } catch {
      return [];
    }
  });
}
