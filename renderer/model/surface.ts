/** What commands need of the window around the panel; the model stays without a DOM. */
import type { Signal } from '@preact/signals';

/** Something laid over the view; one at a time. */
export type Sheet =
  | 'board'
  | 'help'
  | 'firmware'
  | 'frames'
  | 'keeps'
  | 'logbook'
  | 'report'
  | 'new-site'
  | 'new-layout'
  | 'layouts'
  | 'save-as'
  | 'phases'
  | 'traffic'
  | 'sets'
  | 'differs'
  | 'changes'
  | 'wave'
  | 'wiring-sheet'
  | 'wiring'
  | 'scale'
  | 'check'
  | 'find'
  | 'practise'
  | 'about'
  | null;

export interface Surface {
  readonly sheet: Signal<Sheet>;
  /** The sheet to go back to when this one is closed. */
  readonly under: Signal<Sheet>;
  /** Chapter of the help; null: the list of them. */
  readonly chapter: Signal<string | null>;
  /** A command is being looked for. */
  readonly finder: Signal<boolean>;
  /** Why the last key did nothing; shown until the log goes on from this entry. */
  readonly told: Signal<{ readonly text: string; readonly after: number } | null>;
  /** A text file that the person chooses; null when they think better of it. */
  chooseFile(): Promise<{ readonly name: string; readonly text: string } | null>;
  saveFile(name: string, content: string | Uint8Array<ArrayBuffer>): void;
  /** Moves the keyboard to the element with this id, once it is there. */
  focus(id: string): void;
}

/** Lays a sheet over what is there; closing it brings that back. */
export function layOver({ sheet, under }: Surface, next: NonNullable<Sheet>): void {
  if (sheet.value === next) return;
  under.value = sheet.value;
  sheet.value = next;
}

/** A sheet by its key: opens it alone, or closes it. */
export function toggle({ sheet, under }: Surface, which: NonNullable<Sheet>): void {
  under.value = null;
  sheet.value = sheet.value === which ? null : which;
}

export function closeSheet({ sheet, under }: Surface): void {
  sheet.value = under.value;
  under.value = null;
}
