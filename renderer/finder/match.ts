/** How well what was typed fits an entry: any order of words, beginnings of words, one slip of the finger in a word. */
import { plain } from '../../shared/workbench/story/search.ts';

export interface Searched {
  /** Counts most. */
  readonly label: string;
  /** What people may call it. */
  readonly words: readonly string[];
  /** Counts least. */
  readonly hint: string;
}

const WEIGHTS = { label: 4, words: 3, hint: 1 } as const;
/** A slip in a shorter word would make it any other word. */
const SHORTEST_WITH_SLIP = 4;

/** Small letters without accents, in words. */
export function wordsOf(text: string): string[] {
  return plain(text)
    .split(/[^\p{L}\p{N}.]+/u)
    .filter((word) => word !== '' && word !== '.');
}

/** A label that begins with what was typed comes before one that has it further on. */
const BEGINS = 0.2;

interface Part {
  readonly weight: number;
  readonly words: readonly string[];
}

/** Taking a text apart costs more than looking through it, and each letter typed looks through all. */
const takenApart = new WeakMap<Searched, readonly Part[]>();

function partsOf(entry: Searched): readonly Part[] {
  const known = takenApart.get(entry);
  if (known) return known;
  const parts = [
    { weight: WEIGHTS.label, words: wordsOf(entry.label) },
    { weight: WEIGHTS.words, words: entry.words.flatMap(wordsOf) },
    { weight: WEIGHTS.hint, words: wordsOf(entry.hint) },
  ];
  takenApart.set(entry, parts);
  return parts;
}

/** 0 when one of the words fits nowhere; nothing typed fits everything. */
export function fitOf(query: string, entry: Searched): number {
  const parts = partsOf(entry);
  const typed = wordsOf(query);
  let sum = 1;
  for (const word of typed) {
    const best = Math.max(0, ...parts.map(({ weight, words }) => weight * fitOfWord(word, words)));
    if (best === 0) return 0;
    sum += best;
  }
  const [first] = typed;
  return first !== undefined && parts[0]?.words[0]?.startsWith(first) ? sum + BEGINS : sum;
}

function fitOfWord(typed: string, words: readonly string[]): number {
  if (words.includes(typed)) return 1;
  if (words.some((word) => word.startsWith(typed))) return 0.8;
  if (typed.length >= 3 && words.some((word) => word.includes(typed))) return 0.5;
  if (typed.length < SHORTEST_WITH_SLIP) return 0;
  const slipped = words.some((word) =>
    [-1, 0, 1].some((more) => isOneSlip(typed, word.slice(0, typed.length + more)) && word.length >= typed.length - 1),
  );
  return slipped ? 0.4 : 0;
}

/** One letter other, missing, too many, or two neighbours changed over. */
export function isOneSlip(one: string, other: string): boolean {
  if (Math.abs(one.length - other.length) > 1) return false;
  let at = 0;
  while (at < one.length && one[at] === other[at]) at += 1;
  const rest = (text: string, from: number): string => text.slice(from);
  return (
    rest(one, at + 1) === rest(other, at + 1) ||
    rest(one, at) === rest(other, at + 1) ||
    rest(one, at + 1) === rest(other, at) ||
    (one[at] === other[at + 1] && one[at + 1] === other[at] && rest(one, at + 2) === rest(other, at + 2))
  );
}
