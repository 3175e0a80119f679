/** What changed since a board was last told to keep. */
import type { LogEntry } from '../contract.ts';
import { dialKey, dialOf, siteOf, timesOf } from './named.ts';

export interface TimeChange {
  readonly name: string;
  readonly site: string | null;
  /** Kept, ms; null where that is not known. */
  readonly from: number | null;
  readonly to: number;
  /** Nudges of it since. */
  readonly changes: number;
}

export interface SinceKeep {
  /** The newest keep of the board in this log; null: none. */
  readonly keep: LogEntry | null;
  readonly times: readonly TimeChange[];
  /** Changes of the layout, oldest first. */
  readonly edits: readonly LogEntry[];
  readonly sends: readonly LogEntry[];
}

export interface DialApart {
  readonly site: number;
  readonly dial: number;
  readonly name: string;
  readonly siteName: string;
  readonly kept: number;
  readonly running: number;
}

/** An earlier table that is put back is kept in the same step. */
const isKeep = ({ kind, text }: LogEntry): boolean =>
  kind === 'keep' || (kind === 'putBack' && text.startsWith('Put back and kept'));

/**
 * `apart`: the times that the board runs and keeps differently, as it says itself; null while that is not known, and
 * then the log alone is asked.
 */
export function sinceKeep(entries: readonly LogEntry[], board: string, apart: readonly DialApart[] | null): SinceKeep {
  const at = entries.findLastIndex((entry) => entry.board === board && isKeep(entry));
  const since = entries.slice(at + 1);
  const own = since.filter((entry) => entry.board === board);
  return {
    keep: entries[at] ?? null,
    times: apart ? [...asTold(apart, own), ...ofGroups(own)] : asLogged(own),
    edits: since.filter(({ kind, text }) => kind === 'limit' || (kind === 'document' && !text.startsWith('Opened '))),
    sends: own.filter(({ kind }) => kind === 'upload' || kind === 'firmware'),
  };
}

function asTold(apart: readonly DialApart[], own: readonly LogEntry[]): TimeChange[] {
  return apart.map(({ site, dial, name, siteName, kept, running }) => {
    const isIt = ({ kind, data }: LogEntry) => kind === 'nudge' && data?.site === site && data.dial === dial;
    return { name, site: siteName, from: kept, to: running, changes: own.filter(isIt).length };
  });
}

/** Since what was put back, what was changed before is over. */
function asLogged(own: readonly LogEntry[]): TimeChange[] {
  const back = own.findLastIndex(({ kind }) => kind === 'putBack');
  const dials = new Map<string, LogEntry[]>();
  for (const entry of own.slice(back + 1)) {
    const key = dialKey(entry);
    if (key !== null) dials.set(key, [...(dials.get(key) ?? []), entry]);
  }
  return [...dials.values()].flatMap((nudges) => {
    const [first, last] = [nudges[0], nudges.at(-1)];
    const to = last && timesOf(last)?.to;
    if (!first || to === undefined) return [];
    const from = timesOf(first)?.from ?? null;
    return from === to ? [] : [{ name: dialOf(first) ?? '', site: siteOf(first), from, to, changes: nudges.length }];
  });
}

/** Common cycles have numbers above those of sites, and no place among a site's dials. */
const FIRST_GROUP = 128;

function ofGroups(own: readonly LogEntry[]): TimeChange[] {
  const isGroup = ({ kind, data }: LogEntry) =>
    kind !== 'nudge' || (typeof data?.site === 'number' && data.site >= FIRST_GROUP);
  return asLogged(own.filter(isGroup));
}
