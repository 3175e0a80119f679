/** Looking for words in a log: all of them have to be there, in any order, whatever their case and accents. */
import type { LogEntry } from '../contract.ts';
import type { Beat } from './types.ts';

export interface Search {
  /** As they are compared; empty: everything is found. */
  readonly words: readonly string[];
}

export interface Piece {
  readonly text: string;
  readonly isMark: boolean;
}

export function searchFor(text: string): Search {
  return {
    words: plain(text)
      .split(/\s+/)
      .filter((word) => word !== ''),
  };
}

export function findsEntry({ words }: Search, entry: LogEntry): boolean {
  return words.length === 0 || holds(words, plain(textOf(entry)));
}

/** What was compared before: a story is searched with every letter that is typed. */
const compared = new WeakMap<Beat, string>();

/** In its sentence or in an entry that was folded into it. */
export function findsBeat({ words }: Search, beat: Beat): boolean {
  if (words.length === 0) return true;
  const flat = compared.get(beat) ?? plain([beat.text, beat.more, ...beat.entries.map(textOf)].join('\n'));
  compared.set(beat, flat);
  return holds(words, flat);
}

/** The text in pieces, those that are looked for marked; joined they are the text. */
export function marksIn({ words }: Search, text: string): Piece[] {
  const isMarked = new Array<boolean>(text.length).fill(false);
  const { flat, places } = flattened(text);
  for (const word of words) {
    for (let at = flat.indexOf(word); at >= 0; at = flat.indexOf(word, at + word.length)) {
      const end = at + word.length < places.length ? (places[at + word.length] ?? text.length) : text.length;
      isMarked.fill(true, places[at], end);
    }
  }
  const pieces: Piece[] = [];
  for (let from = 0; from < text.length; ) {
    let to = from + 1;
    while (to < text.length && isMarked[to] === isMarked[from]) to++;
    pieces.push({ text: text.slice(from, to), isMark: isMarked[from] === true });
    from = to;
  }
  return pieces;
}

function holds(words: readonly string[], flat: string): boolean {
  return words.every((word) => flat.includes(word));
}

function textOf({ text, names, frames }: LogEntry): string {
  return [text, ...Object.values(names ?? {}), ...(frames ?? [])].join('\n');
}

/** Without case and accents, as texts are compared. */
export function plain(text: string): string {
  return text.normalize('NFD').replace(ACCENTS, '').toLowerCase();
}

const ACCENTS = /\p{M}/gu;

/** Like `plain`, with the place in the text of each of its characters. */
function flattened(text: string): { readonly flat: string; readonly places: readonly number[] } {
  let flat = '';
  const places: number[] = [];
  let at = 0;
  for (const char of text) {
    const it = plain(char);
    for (let part = 0; part < it.length; part++) places.push(at);
    flat += it;
    at += char.length;
  }
  return { flat, places };
}
