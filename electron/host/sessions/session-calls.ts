/** The log of this session and of earlier ones: reading, searching, correcting, photos. */
import { dirname } from 'node:path';
import type { SESSION_CALLS, SessionFind } from '../../../shared/workbench/calls/sessions.ts';
import type { CallArgs, CallResults, LogKind, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';
import { matches } from '../../../shared/workbench/story/filter.ts';
import { correctedBy } from '../../../shared/workbench/story/notes.ts';
import { searchFor } from '../../../shared/workbench/story/search.ts';
import type { LogFacts, SessionLog } from '../log/session-log.ts';
import { fine } from '../result.ts';
import { notedPhoto, photoText } from './photo.ts';
import { SessionFiles } from './session-files.ts';

type Calls = Pick<Handlers, keyof typeof SESSION_CALLS>;

export interface SessionDesk {
  readonly log: SessionLog;
  /** Adds an entry and tells it. */
  note(kind: LogKind, text: string, facts?: LogFacts): void;
  /** Folder of the open layout's file; null while it has none. */
  layoutFolder(): string | null;
  /** The system's dialog for a picture; null when the person thinks better of it. Absent where the shell has none. */
  readonly choosePhoto?: (() => Promise<string | null>) | undefined;
}

/** Finds of one session that are shown. */
const MOST_SHOWN = 5;

export function sessionCalls(desk: SessionDesk): Calls {
  const files = new SessionFiles(dirname(desk.log.file), desk.log.name);
  return {
    listSessions: (args) => list(files, args),
    readSession: async ({ name }) => {
      const read = await files.read(name);
      return read.ok ? fine({ name, ...read.lines }) : problem('sessionUnreadable', { detail: name, cause: read.why });
    },
    sessionText: async ({ name }) => {
      const file = await files.file(name);
      return file.ok
        ? fine({ name, text: file.text })
        : problem('sessionUnreadable', { detail: name, cause: file.why });
    },
    searchSessions: (args) => search(files, args),
    correctRemark: (args) => correct(desk, args),
    attachPhoto: (args) => attach(desk, args),
  };
}

/** Names after `before`, and whether there are more after these. */
function part(names: readonly string[], before: string | null, most: number) {
  // One that has been taken away meanwhile is passed over: the next older one follows.
  const begin = before === null ? 0 : names.indexOf(before) + 1;
  const shown = names.slice(begin, begin + most);
  return { shown, rest: begin + most < names.length };
}

async function list(
  files: SessionFiles,
  { before, most }: CallArgs<'listSessions'>,
): Promise<Outcome<CallResults['listSessions']>> {
  const names = await files.names();
  const { shown, rest } = part(names, before, most);
  const sessions = [];
  for (const name of shown) sessions.push(await files.head(name));
  return fine({ sessions, total: names.length, rest });
}

async function search(
  files: SessionFiles,
  { words, groups, before, most }: CallArgs<'searchSessions'>,
): Promise<Outcome<CallResults['searchSessions']>> {
  const { shown, rest } = part(await files.names(), before, most);
  const wanted = { groups: new Set(groups), search: searchFor(words) };
  const found: SessionFind[] = [];
  const unreadable: string[] = [];
  for (const name of shown) {
    const read = await files.read(name);
    if (!read.ok) {
      unreadable.push(name);
      continue;
    }
    const entries = read.lines.entries.filter((entry) => matches(entry, wanted.groups, wanted.search));
    const from = read.lines.entries[0]?.at ?? '';
    if (entries.length > 0) found.push({ name, from, count: entries.length, entries: entries.slice(0, MOST_SHOWN) });
  }
  return fine({ found, looked: shown.length, unreadable, next: rest ? (shown.at(-1) ?? null) : null });
}

/** The log is only added to: the correction names the entry that was written first. */
function correct({ log, note }: SessionDesk, { number, text }: CallArgs<'correctRemark'>): Outcome<null> {
  const named = log.entries[number - 1];
  const first = (named && correctedBy(named)) ?? number;
  const kind = log.entries[first - 1]?.kind;
  if (kind !== 'remark' && kind !== 'photo') return problem('noSuchNote', { detail: `entry ${number}` });
  const isTakenBack = text.trim() === '';
  note('remark', isTakenBack ? 'Took a note back.' : text, {
    data: { corrects: first, ...(isTakenBack ? { takenBack: true } : {}) },
  });
  return fine(null);
}

async function attach(desk: SessionDesk, { path, caption }: CallArgs<'attachPhoto'>): Promise<Outcome<null>> {
  if (path === null && !desk.choosePhoto) return problem('noPhotoChooser', {});
  const told = path ?? (await desk.choosePhoto?.());
  if (told === null || told === undefined) return fine(null);
  const photo = notedPhoto(told, desk.layoutFolder(), process.platform);
  if (!photo) return problem('notAPhoto', {});
  const words = caption.trim();
  desk.note('photo', photoText(photo, words), { data: { path: photo.path, from: photo.from } });
  return fine(null);
}
