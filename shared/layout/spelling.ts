/** The word that somebody probably meant. */

/** The nearest of `known`, when at most a third of its letters differ. */
export function nearest(word: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const distance = edits(word.toLowerCase(), candidate.toLowerCase());
    if (distance < least && distance * 3 <= candidate.length) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** Letters to put in, take out or change to get from one word to the other. */
function edits(from: string, to: string): number {
  // Nobody misspells at this length; it bounds the work.
  if (from.length > 40) return Number.POSITIVE_INFINITY;
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (const [i, letter] of [...from].entries()) {
    const next = [i + 1];
    for (let j = 0; j < to.length; j++) {
      const change = (row[j] ?? 0) + (letter === to[j] ? 0 : 1);
      next.push(Math.min(change, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}
