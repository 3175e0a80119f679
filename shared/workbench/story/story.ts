/** A session log as a readable story. */
import type { LogEntry } from '../contract.ts';
import { cutChapters, titleOf } from './chapters.ts';
import { Durations } from './durations.ts';
import { type Fold, foldsOf } from './folds.ts';
import { type Group, groupsOf } from './groups.ts';
import { momentMs, type Wall, wallOf, type Zone } from './moment.ts';
import { siteOf } from './named.ts';
import { correctedBy, type Note, notesIn } from './notes.ts';
import type { Beat, Chapter } from './types.ts';

/** Chapters in order. `zone`: of the computer on which it is read. Entries whose time is none stand at the time before them. */
export function storyOf(entries: readonly LogEntry[], zone: Zone): Chapter[] {
  return new Storyteller(zone).tell(entries);
}

/** What is known where the last chapter begins. */
interface Bookmark {
  /** Index of its first entry. */
  readonly at: number;
  readonly durations: Durations;
  readonly wall: Wall;
  readonly day: number | null;
}

/** Tells a log that grows: chapters before the last one are told once. */
export class Storyteller {
  private readonly zone: Zone;
  private entries: readonly LogEntry[] = [];
  private chapters: readonly Chapter[] = [];
  private folded: ReadonlySet<number> = new Set();
  private mark: Bookmark | null = null;

  constructor(zone: Zone) {
    this.zone = zone;
  }

  tell(entries: readonly LogEntry[]): Chapter[] {
    const mark = this.continues(entries) ? this.mark : null;
    const begin = mark ?? { at: 0, durations: new Durations(), wall: wallOf(0, this.zone), day: null };
    const tail = entries.slice(begin.at);
    const { notes, folded } = notesIn(tail);
    this.folded = new Set([...(mark ? this.folded : []), ...folded]);
    const told = tail.filter(({ number }) => !this.folded.has(number));
    const before = mark ? this.chapters.slice(0, -1) : [];
    const groups = cutChapters(told);
    const durations = begin.durations.copy();
    let { wall, day } = begin;
    const chapters = groups.map((group, index): Chapter => {
      if (index === groups.length - 1) {
        const at = begin.at + tail.indexOf(group[0] as LogEntry);
        this.mark = { at, durations: durations.copy(), wall, day };
      }
      const walls = new Map<number, Wall>();
      const more = new Map<number, string>();
      for (const entry of group) {
        const ms = momentMs(entry.at);
        if (ms !== null) wall = wallOf(ms, this.zone);
        walls.set(entry.number, wall);
        more.set(entry.number, durations.note(entry));
      }
      const chapter = chapterOf(group, { walls, more, notes, day });
      day = chapter.to.days;
      return chapter;
    });
    this.entries = entries;
    this.chapters = [...before, ...chapters];
    return [...this.chapters];
  }

  /** The log has only grown, and nothing that is new changes what was told before the last chapter. */
  private continues(entries: readonly LogEntry[]): boolean {
    const { mark, entries: known } = this;
    const last = known.length - 1;
    if (mark === null || known.length === 0 || entries[0] !== known[0] || entries[last] !== known[last]) return false;
    const first = entries[mark.at]?.number ?? 0;
    return entries.slice(known.length).every((entry) => (correctedBy(entry) ?? first) >= first);
  }
}

interface Known {
  readonly walls: ReadonlyMap<number, Wall>;
  readonly more: ReadonlyMap<number, string>;
  readonly notes: ReadonlyMap<number, Note>;
  /** Day of what was told before it. */
  readonly day: number | null;
}

function chapterOf(group: readonly LogEntry[], { walls, more, notes, day }: Known): Chapter {
  const [first] = group as readonly [LogEntry, ...LogEntry[]];
  const wallAt = (entry: LogEntry | undefined): Wall => walls.get(entry?.number ?? first.number) ?? wallAt(first);
  const from = wallAt(first);
  let shown = from.days;
  const beats = foldsOf(group).map((fold): Beat => {
    const beat = beatOf(fold, wallAt, notes.get(fold.entries[0]?.number ?? 0));
    const isNewDay = beat.from.days !== shown;
    shown = beat.from.days;
    return { ...beat, more: beat.more || moreOf(fold, more), isNewDay };
  });
  const to = wallAt(group.at(-1));
  return { key: first.number, title: titleOf(group), from, to, isNewDay: from.days !== day, beats };
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
