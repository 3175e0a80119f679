/**
 * What this computer remembers of each board it has met: the name, the chip's
 * signature, its boot loader, copies of what it keeps and has kept, and how often
 * its memory was written. A broken board can be replaced from it, an update of the
 * firmware loses nothing, and last week's times can be had again.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { fromHex, toHex } from '../../../shared/link/fields.ts';
import { readJson, writeJson } from '../json-file.ts';
import { sweepUnfinished } from '../whole-file.ts';
import { thinned } from './thin.ts';
import { NOTHING_WRITTEN, sent, told } from './wear.ts';

const copy = z.object({
  /** In hexadecimal. */
  image: z.string().regex(/^([0-9A-F]{2})+$/),
  /** When it was first seen to be kept, ISO 8601, wall-clock time. */
  at: z.string(),
  /** Name of the layout that was open and whose table it is; empty where it was another's. */
  layout: z.string().default(''),
  /** Its dials by name, ms; empty where nobody knew their names. */
  dials: z.array(z.object({ name: z.string(), ms: z.number() })).default([]),
});

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
  kept: copy.nullable(),
  /** What it kept before that, newest first, thinned by age. Pages of earlier versions have none of it. */
  earlier: z.array(copy).default([]),
  tally: z.object({ keeps: z.number(), told: z.number(), sends: z.number() }).default({ ...NOTHING_WRITTEN }),
});

type StoredPage = z.infer<typeof page>;

type StoredCopy = z.infer<typeof copy>;

export interface NamedTime {
  readonly name: string;
  readonly ms: number;
}

export interface KeptCopy {
  readonly image: Uint8Array;
  /** ISO 8601. */
  readonly at: string;
  readonly layout: string;
  readonly dials: readonly NamedTime[];
}

export interface BoardPage extends Omit<StoredPage, 'kept' | 'earlier'> {
  readonly kept: KeptCopy | null;
  readonly earlier: readonly KeptCopy[];
}

type Learned = Partial<Pick<BoardPage, 'board' | 'name' | 'signature' | 'loader'>> & {
  readonly kept?: Uint8Array;
  /** What is known of `kept` by name. */
  readonly named?: Pick<KeptCopy, 'layout' | 'dials'>;
  /** Keeps so far as the board tells. */
  readonly keeps?: number;
};

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
    sweepUnfinished(folder);
    for (const found of readPages(folder)) this.pages.set(found.key, found);
  }

  /** Null for a board never met. */
  recall(key: string): BoardPage | null {
    const found = this.pages.get(key);
    return found ? opened(found) : null;
  }

  /** What is asked for often: all but the copies. */
  facts(key: string): Pick<BoardPage, 'signature' | 'loader' | 'tally'> | null {
    return this.pages.get(key) ?? null;
  }

  /** The copies of what boards in this place of the layout kept, newest first. */
  copiesFor(board: string, chip: BoardPage['chip']): BoardPage[] {
    return [...this.pages.values()]
      .filter((found) => found.board === board && found.chip === chip && found.kept !== null)
      .sort((a, b) => (b.kept?.at ?? '').localeCompare(a.kept?.at ?? ''))
      .map(opened);
  }

  /** Adds what is new to the board's page. What it keeps is copied only when it differs from the last copy. */
  learn(key: string, chip: BoardPage['chip'], { kept, named, keeps, ...facts }: Learned): void {
    const before = this.pages.get(key) ?? blankPage(key, chip);
    const tally = keeps === undefined ? before.tally : told(before.tally, keeps);
    this.put(before, { ...before, chip, ...facts, tally, ...(kept ? this.copied(before, kept, named) : {}) });
  }

  /** A table is being sent to the board. */
  sending(key: string, chip: BoardPage['chip']): void {
    const before = this.pages.get(key) ?? blankPage(key, chip);
    this.put(before, { ...before, tally: sent(before.tally) });
  }

  private copied(
    { kept: last, earlier }: StoredPage,
    kept: Uint8Array,
    named: Learned['named'],
  ): Pick<StoredPage, 'kept' | 'earlier'> {
    const image = toHex(kept);
    const names = { layout: named?.layout ?? '', dials: [...(named?.dials ?? [])] };
    // Known by the names it was kept under; it may be met again while another layout is open.
    if (image === last?.image) return { kept: last.layout === '' ? { ...last, ...names } : last, earlier };
    const now = this.now();
    const copies = thinned([{ image, at: now.toISOString(), ...names }, ...(last ? [last] : []), ...earlier], now);
    return { kept: copies[0] ?? null, earlier: copies.slice(1) };
  }

  private put(before: StoredPage, after: StoredPage): void {
    if (JSON.stringify(after) === JSON.stringify(before)) return;
    this.pages.set(after.key, after);
    this.write(after);
  }

  private write(content: StoredPage): void {
    try {
      writeJson(join(this.folder, `${encodeURIComponent(content.key)}.json`), content);
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
  return {
    key,
    board: '',
    name: '',
    chip,
    signature: null,
    loader: null,
    kept: null,
    earlier: [],
    tally: NOTHING_WRITTEN,
  };
}

function opened({ kept, earlier, ...facts }: StoredPage): BoardPage {
  return { ...facts, kept: kept && openedCopy(kept), earlier: earlier.map(openedCopy) };
}

function openedCopy(copied: StoredCopy): KeptCopy {
  return { ...copied, image: fromHex(copied.image) };
}

function readPages(folder: string): StoredPage[] {
  let files: string[];
  try {
    files = readdirSync(folder).filter((name) => name.endsWith('.json'));
  } catch {
    return [];
  }
  return files.flatMap((name) => readJson(join(folder, name), page) ?? []);
}
