/** What commands need of the window around the panel; the model stays without a DOM. */
import type { Signal } from '@preact/signals';

/** Something laid over the view; one at a time. */
export type Sheet = 'board' | 'help' | null;

export interface Surface {
  readonly sheet: Signal<Sheet>;
  /** A text file that the person chooses; null when they think better of it. */
  chooseFile(): Promise<{ readonly name: string; readonly text: string } | null>;
  saveFile(name: string, text: string): void;
  /** Moves the keyboard to the element with this id, once it is there. */
  focus(id: string): void;
}
