/** Which part of a story is shown. */
import type { LogEntry } from '../contract.ts';
import { type Group, groupsOf } from './groups.ts';
import { siteOf } from './named.ts';
import { findsBeat, findsEntry, type Search } from './search.ts';
import type { Chapter } from './types.ts';

export interface Filter {
  /** Any of them; empty: all. */
  readonly groups: ReadonlySet<Group>;
  /** Id, or null: all. */
  readonly board: string | null;
  /** Name, or null: all. */
  readonly site: string | null;
  readonly search: Search;
}

export const EVERYTHING: Filter = { groups: new Set(), board: null, site: null, search: { words: [] } };

export function isEverything({ groups, board, site, search }: Filter): boolean {
  return groups.size === 0 && board === null && site === null && search.words.length === 0;
}

/** Chapters with what is left in them; empty ones are gone. */
export function filterStory(chapters: readonly Chapter[], filter: Filter): Chapter[] {
  if (isEverything(filter)) return [...chapters];
  return chapters.flatMap((chapter) => {
    const beats = chapter.beats.filter(
      (beat) =>
        (filter.groups.size === 0 || beat.groups.some((group) => filter.groups.has(group))) &&
        (filter.board === null || beat.board === filter.board) &&
        (filter.site === null || beat.entries.some((entry) => siteOf(entry) === filter.site)) &&
        findsBeat(filter.search, beat),
    );
    return beats.length === 0 ? [] : [{ ...chapter, beats }];
  });
}

/** The entries of what is shown, in order. */
export function entriesIn(chapters: readonly Chapter[]): LogEntry[] {
  return chapters
    .flatMap(({ beats }) => beats.flatMap(({ entries }) => entries))
    .sort((one, other) => one.number - other.number);
}

export function countIn(chapters: readonly Chapter[]): number {
  return chapters.reduce((sum, { beats }) => sum + beats.reduce((count, { entries }) => count + entries.length, 0), 0);
}

/** Boards and sites that a log speaks of, in the order in which they come. */
export function spokenOf(entries: readonly LogEntry[]): {
  readonly boards: readonly { readonly id: string; readonly name: string }[];
  readonly sites: readonly string[];
} {
  const boards = new Map<string, string>();
  const sites = new Set<string>();
  for (const { board, names } of entries) {
    if (board !== undefined && (names?.board !== undefined || !boards.has(board)))
      boards.set(board, names?.board ?? board);
    if (names?.site !== undefined) sites.add(names.site);
  }
  return { boards: [...boards].map(([id, name]) => ({ id, name })), sites: [...sites] };
}

/** Whether one entry is about this and has the words; for searches through many sessions. */
export function matches(entry: LogEntry, groups: ReadonlySet<Group>, search: Search): boolean {
  return (groups.size === 0 || groupsOf(entry).some((group) => groups.has(group))) && findsEntry(search, entry);
}
