/** What a person can have done: one file for each, shared by buttons, keys and the list of keys. */
import type { BoardModel } from '../model/board.ts';
import type { Model } from '../model/model.ts';
import type { Surface } from '../model/surface.ts';

/** What a button stands at. Keys are about the board at hand. */
export interface About {
  readonly board: BoardModel;
  /** Path of the port in whose row the button stands. */
  readonly port?: string;
}

export const MENUS = ['File', 'Edit', 'View', 'Site', 'Board', 'Lamps', 'Help'] as const;
export type MenuTitle = (typeof MENUS)[number];

export interface Command {
  readonly id: string;
  /** On buttons and in the list of keys. */
  readonly label: string;
  /** What it does, for those who hesitate over the button. */
  readonly hint: string;
  /** `K`, `Shift+S`, `Ctrl+Z`; Ctrl is also the command key. Null: no key. */
  readonly shortcut: string | null;
  /** Other keys for it. */
  readonly also?: readonly string[];
  /** Menu in which it stands, in the order of `all.ts`; absent where it only makes sense beside what it is about. */
  readonly menu?: MenuTitle;
  /** A line before it in its menu. */
  readonly line?: true;
  /** For the command finder: what people may call it, beside its label. */
  readonly words?: readonly string[];
  /** Instead of the label on a button, where the circumstances make it another word. */
  name?(model: Model, about?: About): string;
  /** Whether it can be done now. */
  when(model: Model, about?: About): boolean;
  /** Why it cannot be done now, as a sentence; asked only while `when` says no. */
  why?(model: Model, about?: About): string | null;
  /** Of a choice or a switch: whether it is on. */
  checked?(model: Model): boolean;
  run(model: Model, surface: Surface, about?: About): void | Promise<void>;
}

export function command(parts: Command): Command {
  return parts;
}
