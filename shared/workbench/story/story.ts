/** A session log as a readable story. */
import type { LogEntry } from '../contract.ts';
import { cutChapters, titleOf } from './chapters.ts';
import { Durations } from './durations.ts';
import { type Fold, foldsOf } from './folds.ts';
import { type Group, groupsOf } from './groups.ts';
import { momentMs, secondsText, type Wall, wallOf, type Zone } from './moment.ts';
import { siteOf } from './named.ts';
import { type Note, notesIn } from './notes.ts';
import type { Beat, Chapter } from './types.ts';

/** Chapters in order. `zone`: of the computer on which it is read. Entries whose time is none stand at the time before them. */
export function storyOf(entries: readonly LogEntry[], zone: Zone): Chapter[] {
  const { notes, folded } = notesIn(entries);
  const told = entries.filter(({ number }) => !folded.has(number));
  const durations = new Durations();
  const more = new Map(told.map((entry) => [entry.number, durations.note(entry)]));
  let wall = wallOf(0, zone);
  const walls = new Map<number, Wall>();
  for (const { number, at } of told) {
    const ms = momentMs(at);
    if (ms !== null) wall = wallOf(ms, zone);
    walls.set(number, wall);
  }
  const wallAt = (entry: LogEntry | undefined): Wall => walls.get(entry?.number ?? 0) ?? wall;
  let day: number | null = null;
  return cutChapters(told).map((chapter) => {
    const from = wallAt(chapter[0]);
    const isNewDay = from.days !== day;
    day = from.days;
    const beats = foldsOf(chapter).map((fold): Beat => {
      const beat = beatOf(fold, wallAt, notes.get(fold.entries[0]?.number ?? 0));
      const isNew = beat.from.days !== day;
      day = beat.from.days;
      return { ...beat, more: beat.more || moreOf(fold, more), isNewDay: isNew };
    });
    return { key: chapter[0]?.number ?? 0, title: titleOf(chapter), from, to: wallAt(chapter.at(-1)), isNewDay, beats };
  });
}

function moreOf({ entries, text }: Fold, more: ReadonlyMap<number, string>): string {
  return text === null ? (more.get(entries[0]?.number ?? 0) ?? '') : '';
}

function beatOf({ entries, text }: Fold, wallAt: (entry?: LogEntry) => Wall, note: Note | undefined): Beat {
  const [first] = entries as readonly [LogEntry, ...LogEntry[]];
  const sites = new Set(entries.map(siteOf));
  const versions = note?.versions ?? [];
  return {
    key: first.number,
    from: wallAt(first),
    to: wallAt(entries.at(-1)),
    kind: first.kind,
    groups: [...new Set<Group>(entries.flatMap(groupsOf))],
    board: first.board ?? null,
    site: sites.size === 1 ? siteOf(first) : null,
    text: note ? noteText(first, note) : (text ?? first.text),
    more: versions.length > 1 ? `${note?.text === '' ? 'taken back' : 'corrected'} later` : '',
    isNewDay: false,
    entries: note ? versions : entries,
  };
}

/** A photo keeps its place; only the words with it are corrected. */
function noteText(first: LogEntry, { text, versions }: Note): string {
  const path = first.kind === 'photo' && typeof first.data?.path === 'string' ? first.data.path : null;
  if (path !== null && versions.length > 1) return text === '' ? `Photo ${path}.` : `Photo ${path}: ${text}`;
  return text === '' ? 'A note that was taken back.' : text;
}

/** `19:04:12` of an entry. */
export function entryClock({ at }: LogEntry, zone: Zone): string {
  const ms = momentMs(at);
  return ms === null ? at : secondsText(wallOf(ms, zone));
}
