/**
 * Notes of the person. The log is only ever added to: a correction is an entry of its own that names the entry it
 * corrects, and the story shows the newest words where the first stood.
 */
import type { LogEntry } from '../contract.ts';

export interface Note {
  /** Newest words; empty: taken back. */
  readonly text: string;
  /** The entry as it was first written, then its corrections, oldest first. */
  readonly versions: readonly LogEntry[];
}

/** Number of the entry that this one corrects, or null. A correction of what is no earlier note is a note like any other. */
export function correctedBy(entry: LogEntry): number | null {
  const number = entry.data?.corrects;
  return entry.kind === 'remark' && typeof number === 'number' && number < entry.number ? number : null;
}

export interface Notes {
  /** By the number of the first entry. */
  readonly notes: ReadonlyMap<number, Note>;
  /** Numbers of entries that stand in the story no more, as they correct another. */
  readonly folded: ReadonlySet<number>;
}

export function notesIn(entries: readonly LogEntry[]): Notes {
  const notes = new Map<number, Note>();
  const folded = new Set<number>();
  for (const entry of entries) {
    if (entry.kind !== 'remark' && entry.kind !== 'photo') continue;
    const number = correctedBy(entry);
    const first = number === null ? undefined : notes.get(number);
    if (number === null || first === undefined) {
      notes.set(entry.number, { text: entry.text, versions: [entry] });
      continue;
    }
    const text = entry.data?.takenBack === true ? '' : entry.text;
    notes.set(number, { text, versions: [...first.versions, entry] });
    folded.add(entry.number);
  }
  return { notes, folded };
}
