/** The names in an entry; logs of earlier versions have them in the sentence only. */
import type { LogEntry } from '../contract.ts';

const CHANGED = /^Changed (.+?)(?: from [\d.:]+(?: s)?)? to [\d.:]+(?: s)? on (.+)\.$/;

/** `Market Cross green of Fore Street`; null for an entry about no dial. */
export function dialOf(entry: LogEntry): string | null {
  if (entry.names?.dial !== undefined) return entry.names.dial;
  return entry.kind === 'nudge' ? (CHANGED.exec(entry.text)?.[1] ?? null) : null;
}

export function siteOf(entry: LogEntry): string | null {
  return entry.names?.site ?? null;
}

/** The board as the layout calls it; its id where nobody wrote the name down. */
export function boardOf(entry: LogEntry): string | null {
  if (entry.names?.board !== undefined) return entry.names.board;
  const told = entry.kind === 'nudge' ? CHANGED.exec(entry.text)?.[2] : undefined;
  return told ?? entry.board ?? null;
}

/** Times of a nudge, ms; null where the entry does not have them. */
export function timesOf({ data }: LogEntry): { readonly from: number | null; readonly to: number } | null {
  if (typeof data?.to !== 'number') return null;
  return { from: typeof data.from === 'number' ? data.from : null, to: data.to };
}

/** What one dial is called across entries; null for what is no change of a dial. */
export function dialKey(entry: LogEntry): string | null {
  if (entry.kind !== 'nudge') return null;
  const { site, dial } = entry.data ?? {};
  const named = dialOf(entry);
  if (typeof dial !== 'number' && named === null) return null;
  return `${entry.board ?? ''}/${site === undefined ? named : `${site}/${dial ?? ''}`}`;
}
