/** Changed times within an entry of the log, by the ids of the layout, so that they can be walked back by it. */
import type { LogEntry } from './contract.ts';

export interface LoggedChange {
  /** Ids in the layout. */
  readonly site: string;
  readonly dial: string;
  /** ms. */
  readonly from: number;
  readonly to: number;
}

/** For the field `changes` of the entry's data. */
export function writeChanges(changes: readonly LoggedChange[]): string {
  return JSON.stringify(changes.map(({ site, dial, from, to }) => [site, dial, from, to]));
}

/** Empty where the entry has none, or cannot be understood: logs of other versions are read, too. */
export function readChanges({ data }: Pick<LogEntry, 'data'>): readonly LoggedChange[] {
  if (typeof data?.changes !== 'string') return [];
  try {
    const read: unknown = JSON.parse(data.changes);
    return Array.isArray(read) ? read.flatMap(readChange) : [];
  } catch {
    return [];
  }
}

function readChange(value: unknown): LoggedChange[] {
  if (!Array.isArray(value)) return [];
  const [site, dial, from, to] = value as unknown[];
  const isWhole = typeof site === 'string' && typeof dial === 'string';
  return isWhole && typeof from === 'number' && typeof to === 'number' ? [{ site, dial, from, to }] : [];
}
