/**
 * Where the open layout came from and where it is saved: a file, or none yet. Every change goes into a copy in the
 * data folder, and so does whatever is left unsaved when another layout is opened: nothing is lost by closing.
 */
import { basename } from 'node:path';
import type { DocumentFile } from '../../../shared/workbench/calls/files.ts';
import type { DocumentState } from '../../../shared/workbench/contract.ts';
import type { LayoutCopy, OpenLayoutCopy } from '../book/layout-copy.ts';
import type { LeftCopies } from './left-copies.ts';

/** Of one opened layout. */
export interface Origin {
  /** Null: it has no file. */
  readonly path: string | null;
  /** What the file held when it was read or written last, else what was opened first; null: it was never saved. */
  readonly base: string | null;
  /** It came from the copy after the app had ended without being closed. */
  readonly recovered: boolean;
  /** The file as it was before this session lies beside it. */
  readonly backedUp: boolean;
}

export interface Shelved {
  readonly name: string;
  readonly text: string;
  readonly origin: Origin;
  /** Id of its copy, where it was left unsaved. */
  readonly left: string | null;
}

/** Handed over by a browser, or the example: no file, and nothing of it unsaved. */
export function fromText(text: string): Origin {
  return { path: null, base: text, recovered: false, backedUp: false };
}

/** Earlier ones cannot be put back by undo; what they had unsaved is kept on the disk all the same. */
const MOST_SHELVED = 30;

interface Parts {
  readonly copy?: LayoutCopy | undefined;
  readonly left?: LeftCopies | undefined;
  readonly now: () => Date;
  /** A folder as a person reads it. */
  readonly folderOf: (path: string) => string;
}

export class FileDesk {
  origin: Origin;
  /** Numbers of openings; those of another run of the app are others. */
  private opened: number;
  private newest: number;
  private readonly shelf = new Map<number, Shelved>();
  private readonly parts: Parts;

  constructor(parts: Parts, text: string) {
    this.parts = parts;
    this.origin = fromText(text);
    this.opened = parts.now().getTime();
    this.newest = this.opened;
  }

  /** What the panel is told with a text. */
  stateOf(text: string): Pick<DocumentState, 'file' | 'opened'> {
    const { path, base, recovered } = this.origin;
    const file: DocumentFile = {
      folder: path === null ? null : this.parts.folderOf(path),
      unsaved: text !== base,
      recovered,
    };
    return { file, opened: this.opened };
  }

  /** Another layout takes the place of the open one; `as`: the number of one that is put back. */
  leave(open: Pick<DocumentState, 'name' | 'text'>, next: Origin, as?: number): void {
    const { name, text } = open;
    const { path, base } = this.origin;
    const left = text === base ? null : (this.parts.left?.put({ name, text, path, base }) ?? null);
    this.shelf.set(this.opened, { name, text, origin: this.origin, left });
    for (const number of [...this.shelf.keys()].slice(0, -MOST_SHELVED)) this.shelf.delete(number);
    this.origin = next;
    this.newest = Math.max(this.newest + 1, as ?? 0);
    this.opened = as ?? this.newest;
  }

  /** What was open under this number. It is open again from now on, so its copy goes. */
  shelved(number: number): Shelved | null {
    return this.shelf.get(number) ?? null;
  }

  /** Opened again: nothing of it is left. */
  unshelve(number: number): void {
    const left = this.shelf.get(number)?.left;
    if (left) this.parts.left?.drop(left);
    this.shelf.delete(number);
  }

  /** Written to `path`, or found there again. */
  saved(path: string | null, text: string, backedUp: boolean): void {
    this.origin = { path, base: text, recovered: false, backedUp };
  }

  /** Writes the copy of the open layout; `closed`: the app is being closed. */
  note({ name, text }: Pick<DocumentState, 'name' | 'text'>, closed = false): void {
    const { path, base } = this.origin;
    this.parts.copy?.note({ name, text, path, ...(base === text ? {} : { base }), ...(closed && { closed }) });
  }

  /** Why the disk does not take the copy; null in good health. */
  get failure(): string | null {
    return this.parts.copy?.failure ?? null;
  }

  /** What was open when the app ended, and how it comes back. */
  found(fileNow: (path: string) => string | null): Found | null {
    const copy = this.parts.copy?.left();
    return copy ? foundFrom(copy, fileNow) : null;
  }
}

export interface Found {
  readonly name: string;
  readonly text: string;
  readonly origin: Origin;
  /** For the log. */
  readonly what: string;
}

function foundFrom(copy: OpenLayoutCopy, fileNow: (path: string) => string | null): Found {
  const { name, text, closed = false } = copy;
  const path = copy.path ?? null;
  const base = copy.base === undefined ? text : copy.base;
  const isUnsaved = text !== base;
  const origin: Origin = { path, base, recovered: !closed && isUnsaved, backedUp: false };
  const asItWas = `Opened ${name} as it was when Amberwick ended without being closed.`;
  if (isUnsaved) {
    return { name, text, origin, what: closed ? `Opened ${name} with the changes that were not saved yet.` : asItWas };
  }
  const what = closed ? `Opened ${name}.` : asItWas;
  if (path === null) return { name, text, origin, what };
  const there = fileNow(path);
  if (there !== null) return { name: basename(path), text: there, origin: { ...origin, base: there }, what };
  const without = `Opened ${name} from the copy on this computer, as its file is not there.`;
  return { name, text, origin: { ...origin, base: null }, what: without };
}
