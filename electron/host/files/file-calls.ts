/** Opens and saves layout files for the panel, which names no path: only what was listed, or what the system's dialog gave. */
import { existsSync, readFileSync, realpathSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { parseLayout } from '../../../shared/layout/parse.ts';
import type { FILE_CALLS, FileResults, LayoutFile } from '../../../shared/workbench/calls/files.ts';
import type { DocumentState, LogKind, Outcome } from '../../../shared/workbench/contract.ts';
import { fileName, hasEnding, LAYOUT_ENDINGS } from '../../../shared/workbench/file-names.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';
import { fine } from '../result.ts';
import { writeWhole } from '../whole-file.ts';
import type { FileDesk, Origin } from './file-desk.ts';
import type { LayoutsFolder } from './layouts-folder.ts';
import type { LeftCopies } from './left-copies.ts';
import { readLayoutFile } from './read-file.ts';
import type { RecentFiles } from './recent-files.ts';
import { templateCalls } from './template-calls.ts';
import type { TemplateShelf } from './template-shelf.ts';

type Calls = Pick<Handlers, keyof typeof FILE_CALLS>;

/** The system's own dialogs; null when the person thought better of it. */
export interface Chooser {
  open(): Promise<string | null>;
  saveAs(name: string): Promise<string | null>;
}

/** What there is of the disk; without it everything but opening and changing is refused. */
export interface FilePlaces {
  /** Absent in a shell with dialogs. */
  readonly folder?: LayoutsFolder;
  readonly chooser?: Chooser;
  readonly recent: RecentFiles;
  readonly left: LeftCopies;
  readonly templates: TemplateShelf;
  /** A folder as a person reads it. */
  readonly folderText: (folder: string) => string;
}

export interface FileParts {
  readonly places: FilePlaces | undefined;
  readonly desk: FileDesk;
  readonly document: () => DocumentState;
  /** Opens another layout; `as`: one that is put back. */
  readonly open: (layout: Opening) => Promise<Outcome<DocumentState>>;
  /** The open layout has this name and state of its file now. */
  readonly filed: (name: string) => void;
  readonly log: (kind: LogKind, text: string) => void;
}

export interface Opening {
  readonly name: string;
  readonly text: string;
  readonly what: string;
  readonly origin: Origin;
  readonly as?: number;
}

const quiet = (outcome: Outcome<unknown>): Outcome<null> => (outcome.ok ? fine(null) : outcome);

/** What the file association opens as well. */
export async function openPath({ open, places }: FileParts, given: string): Promise<Outcome<null>> {
  const name = basename(given);
  const read = readLayoutFile(given, name);
  if (!read.ok) return { ok: false, problem: read.problem };
  // A link is followed once: it is the file behind it that is saved.
  const path = realpathSync(given);
  const { text } = read;
  // What a newer program wrote is not all understood, so it must not be saved over.
  const isNewer = parseLayout(text).findings.some(({ code }) => code === 'newer-version');
  const origin: Origin = { path: isNewer ? null : path, base: text, recovered: false, backedUp: false };
  const outcome = await open({ name, text, what: `Opened ${name}.`, origin });
  if (outcome.ok) places?.recent.note(path);
  return quiet(outcome);
}

export function fileCalls(parts: FileParts): Calls {
  const { desk, places } = parts;
  const always = openings(parts);
  if (!places) return { ...withoutPlaces(), ...always };
  return {
    ...always,
    chooseFile: async () => {
      if (!places.chooser) return problem('noChooser', {});
      const path = await places.chooser.open();
      return path === null ? fine(null) : openPath(parts, path);
    },
    listFiles: () => fine(listFiles(places)),
    openFile: ({ from, id }) => openFile(parts, places, from, id),
    forgetFile: ({ from, id }) => {
      if (from === 'recent') places.recent.forget(id);
      else places.left.drop(id);
      return fine(null);
    },
    readSaved: () => {
      const { path, base, backedUp } = desk.origin;
      const { name } = parts.document();
      if (path === null) return base === null ? problem('noFileYet', {}) : fine({ text: base });
      const read = readLayoutFile(path, name);
      if (!read.ok) return { ok: false, problem: read.problem };
      desk.saved(path, read.text, backedUp && read.text === base);
      parts.filed(name);
      return fine({ text: read.text });
    },
    save: ({ over }) => {
      const { path } = desk.origin;
      return path === null ? problem('noFileYet', {}) : write(parts, places, path, over, desk.origin.backedUp);
    },
    saveAs: ({ name, over }) => saveAs(parts, places, name, over),
    ...templateCalls(places.templates, parts.log),
  };
}

/** What needs no disk. */
function openings(parts: FileParts): Pick<Calls, 'turnBack' | 'newLayout'> {
  return {
    turnBack: async ({ to }) => {
      const shelved = parts.desk.shelved(to);
      if (!shelved) return problem('notOpenBefore', {});
      const { name, text, origin } = shelved;
      const outcome = await parts.open({ name, text, origin, what: `Put ${name} back.`, as: to });
      return quiet(outcome);
    },
    newLayout: async ({ name, text, what }) => {
      const origin: Origin = { path: null, base: null, recovered: false, backedUp: false };
      return quiet(await parts.open({ name, text, what, origin }));
    },
  };
}

async function openFile(
  parts: FileParts,
  places: FilePlaces,
  from: 'folder' | 'recent' | 'left',
  id: string,
): Promise<Outcome<null>> {
  if (from === 'folder') {
    const path = places.folder?.pathOf(id);
    return path ? openPath(parts, path) : problem('fileGone', { file: basename(id) });
  }
  if (from === 'recent') {
    const found = places.recent.find(id);
    return found ? openPath(parts, found.path) : problem('fileGone', {});
  }
  const left = places.left.find(id);
  if (!left) return problem('fileGone', {});
  const { name, text, path, base } = left;
  const origin: Origin = { path, base, recovered: false, backedUp: false };
  const what = `Opened ${name} with the changes that were not saved yet.`;
  const outcome = await parts.open({ name, text, what, origin });
  if (outcome.ok) places.left.drop(id);
  return quiet(outcome);
}

async function saveAs(parts: FileParts, places: FilePlaces, typed: string, over: boolean): Promise<Outcome<null>> {
  const checked = fileName(typed);
  if (!checked.ok) return problem('badFileName', { cause: checked.why });
  if (places.chooser) {
    const chosen = await places.chooser.saveAs(checked.name);
    if (chosen === null) return fine(null);
    const path = hasEnding(basename(chosen)) ? chosen : `${chosen}${LAYOUT_ENDINGS[0]}`;
    // The dialog has asked already, but only about the name that it showed.
    if (path !== chosen && existsSync(path)) return problem('nameTaken', { file: basename(path) });
    return write(parts, places, path, true, false);
  }
  const path = places.folder?.pathOf(checked.name);
  if (!places.folder || !path) return problem('badFileName', {});
  if (!over && existsSync(path) && path !== parts.desk.origin.path) return problem('nameTaken', { file: checked.name });
  try {
    places.folder.make();
  } catch (error) {
    return problem('notSaved', { file: checked.name, cause: `The system says: ${(error as Error).message}.` });
  }
  return write(parts, places, path, over || path !== parts.desk.origin.path, false);
}

/** Whole or not at all. What was in the file before this session lies beside it afterwards. */
function write(parts: FileParts, places: FilePlaces, path: string, over: boolean, backedUp: boolean): Outcome<null> {
  const { desk, document, filed, log } = parts;
  const name = basename(path);
  const { text } = document();
  const { base } = desk.origin;
  try {
    const there = bytesOf(path);
    const isOurs = desk.origin.path === path && base !== null && there?.equals(Buffer.from(base)) === true;
    if (!over && there !== null && !isOurs) return problem('fileChanged', { file: name });
    if (there !== null && !there.equals(Buffer.from(text)) && !(backedUp && isOurs)) writeWhole(`${path}.bak`, there);
    writeWhole(path, text);
  } catch (error) {
    return problem('notSaved', { file: name, cause: `The system says: ${(error as Error).message}.` });
  }
  desk.saved(path, text, true);
  places.recent.note(path);
  filed(name);
  log('document', `Saved ${name}.`);
  return fine(null);
}

/** Null where there is no such file; throws what the system says when it is there and cannot be read. */
function bytesOf(path: string): Buffer | null {
  return existsSync(path) ? readFileSync(path) : null;
}

function listFiles({ folder, chooser, recent, left, folderText }: FilePlaces): FileResults['listFiles'] {
  const inFolder = (path: string): string => folderText(dirname(path));
  const files = chooser || !folder ? [] : folder.list();
  return {
    folder: chooser || !folder ? null : folderText(folder.path),
    files: files.map(
      ({ name, path, at }): LayoutFile => ({
        id: name,
        name,
        folder: inFolder(path),
        at: at.toISOString(),
        exists: true,
      }),
    ),
    recent: recent.list().map(
      ({ id, path, at }): LayoutFile => ({
        id,
        name: basename(path),
        folder: inFolder(path),
        at,
        exists: existsSync(path),
      }),
    ),
    left: left.list().map(
      ({ id, name, path, at }): LayoutFile => ({
        id,
        name,
        folder: path === null ? '' : inFolder(path),
        at,
        exists: true,
      }),
    ),
  };
}

function withoutPlaces(): Omit<Calls, 'turnBack' | 'newLayout'> {
  const none = () => problem('notSaved', { cause: 'There is no folder for files here.' });
  return {
    chooseFile: () => problem('noChooser', {}),
    listFiles: () => fine({ folder: null, files: [], recent: [], left: [] }),
    openFile: () => problem('fileGone', {}),
    forgetFile: () => fine(null),
    readSaved: () => problem('noFileYet', {}),
    save: none,
    saveAs: none,
    listTemplates: () => fine([]),
    keepTemplate: () => problem('templateNotKept', {}),
    dropTemplate: () => problem('noTemplate', {}),
  };
}
