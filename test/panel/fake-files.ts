/** The disk of the fake host: a folder of layouts, templates, and what was open before. */
import { readParcel } from '../../shared/layout/copy-site/parcel.ts';
import type { DocumentFile, FileResults, LayoutFile, SiteTemplate } from '../../shared/workbench/calls/files.ts';

const AT = '2026-01-01T19:00:00Z';

interface Place {
  readonly folder: string | null;
  /** What its file holds. */
  readonly base: string | null;
}

export class FakeFiles {
  /** Layouts in the folder, by name. */
  readonly folder = new Map<string, string>();
  templates: SiteTemplate[] = [];
  opened = 1;
  #newest = 1;
  #place: Place;
  readonly #shelf = new Map<number, { readonly name: string; readonly text: string; readonly place: Place }>();

  constructor(text: string) {
    this.#place = { folder: null, base: text };
  }

  state(text: string): { readonly file: DocumentFile; readonly opened: number } {
    const { folder, base } = this.#place;
    return { file: { folder, unsaved: text !== base, recovered: false }, opened: this.opened };
  }

  leave(
    open: { readonly name: string; readonly text: string },
    base: string | null,
    folder: string | null = null,
  ): void {
    this.#shelf.set(this.opened, { ...open, place: this.#place });
    this.#newest += 1;
    this.opened = this.#newest;
    this.#place = { folder, base };
  }

  /** Null where nothing was open under this number. */
  turnBack(open: { readonly name: string; readonly text: string }, to: number) {
    const found = this.#shelf.get(to);
    if (!found) return null;
    this.#shelf.set(this.opened, { ...open, place: this.#place });
    this.opened = to;
    this.#place = found.place;
    return found;
  }

  get base(): string | null {
    return this.#place.base;
  }

  get isFiled(): boolean {
    return this.#place.folder !== null;
  }

  save(name: string, text: string): void {
    this.folder.set(name, text);
    this.#place = { folder: 'Layouts', base: text };
  }

  list(): FileResults['listFiles'] {
    const files = [...this.folder.keys()].map(
      (name): LayoutFile => ({ id: name, name, folder: 'Layouts', at: AT, exists: true }),
    );
    return { folder: 'Layouts', files, recent: files, left: [] };
  }

  /** False for what is no site. */
  keepTemplate(name: string, text: string): boolean {
    const read = readParcel(text);
    if (!read.ok) return false;
    const others = this.templates.filter((it) => it.name !== name);
    this.templates = [...others, { id: name.toLowerCase(), name, kind: read.parcel.site.kind, text }];
    return true;
  }

  dropTemplate(id: string): void {
    this.templates = this.templates.filter((it) => it.id !== id);
  }
}
