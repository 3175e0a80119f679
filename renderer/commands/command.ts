/** What a person can have done: one file for each, shared by buttons, keys and the list of keys. */
import type { Model } from '../model/model.ts';
import type { Surface } from '../model/surface.ts';

export interface Command {
  readonly id: string;
  /** On buttons and in the list of keys. */
  readonly label: string;
  /** What it does, for those who hesitate over the button. */
  readonly hint: string;
  /** `K`, `Shift+S`, `Ctrl+Z`; Ctrl is also the command key. Null: no key. */
  readonly shortcut: string | null;
  /** Whether it can be done now. */
  when(model: Model): boolean;
  run(model: Model, surface: Surface): void | Promise<void>;
}

export function command(parts: Command): Command {
  return parts;
}
