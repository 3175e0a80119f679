/** From a pressed key to a command. */
import type { Command } from './command.ts';

/** The parts of a keyboard event that count. */
export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

/** Where the keyboard is: in a text, in a dial that nothing was typed into yet, or elsewhere. */
export type Focus = 'text' | 'dial' | 'free';

export function shortcutOf({ key, ctrlKey, metaKey, shiftKey }: KeyPress): string {
  const isLetter = /^[a-z]$/i.test(key);
  const parts = [];
  if (ctrlKey || metaKey) parts.push('Ctrl');
  // On other keys Shift makes another character, which says it already.
  if (shiftKey && isLetter) parts.push('Shift');
  return [...parts, isLetter ? key.toUpperCase() : key].join('+');
}

export function commandFor(
  press: KeyPress,
  focus: Focus,
  commands: readonly Command[],
  singleKeys: boolean,
): Command | null {
  if (press.altKey) return null;
  const shortcut = shortcutOf(press);
  // Keys above the digits write nothing, wherever the keyboard is.
  const isOfItsOwn = press.key === 'Escape' || /^F\d+$/.test(press.key);
  const isSingle = !press.ctrlKey && !press.metaKey && !isOfItsOwn;
  if (isSingle && (!singleKeys || focus === 'text')) return null;
  // Digits, points and colons belong to the time that is being typed.
  if (isSingle && focus === 'dial' && /^[0-9.,:]$/.test(press.key)) return null;
  // In a text field the browser's own undo is meant, and its clipboard.
  if (focus === 'text' && !isOfItsOwn && /^[acvxyz]$/i.test(press.key)) return null;
  return commands.find((it) => it.shortcut === shortcut || it.also?.includes(shortcut)) ?? null;
}
