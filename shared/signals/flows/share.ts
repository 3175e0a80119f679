/** Sharing a time out, with least shares and whole steps. */

export interface SharedGreens {
  /** ms, one for each stage: effective green, what it means on the heads, what is set. */
  readonly effective: readonly number[];
  readonly wanted: readonly number[];
  readonly greens: readonly number[];
}

/**
 * `total` in proportion to `weights`, no share below its least; equal shares
 * where all weights are 0. Null when the leasts alone are more than the total.
 */
export function shareOut(total: number, weights: readonly number[], leasts: readonly number[]): number[] | null {
  const bound = weights.map(() => false);
  for (;;) {
    const free = weights.map((weight, index) => (bound[index] ? 0 : weight));
    const sum = free.reduce((all, weight) => all + weight, 0);
    const kept = leasts.reduce((all, least, index) => all + (bound[index] ? least : 0), 0);
    const frees = bound.filter((it) => !it).length;
    const share = (index: number): number => {
      if (bound[index]) return leasts[index] ?? 0;
      return (total - kept) * (sum > 0 ? (free[index] ?? 0) / sum : 1 / frees);
    };
    const shares = weights.map((_, index) => share(index));
    // A hair of tolerance, so that a share that is its least stays free.
    const short = shares.map((value, index) => !bound[index] && value < (leasts[index] ?? 0) - 1e-9);
    if (!short.some(Boolean)) return kept > total + 1e-9 ? null : shares;
    short.forEach((it, index) => {
      if (it) bound[index] = true;
    });
    if (bound.every(Boolean)) {
      const all = leasts.reduce((one, least) => one + least, 0);
      return all > total + 1e-9 ? null : [...leasts];
    }
  }
}

/**
 * Whole numbers near `values` with the sum `total` (their sum, a whole number),
 * none below its least (whole numbers, together at most `total`).
 */
export function roundShares(values: readonly number[], total: number, leasts: readonly number[]): number[] {
  const rounded = values.map((value, index) => Math.max(Math.floor(value + 1e-9), leasts[index] ?? 0));
  const rest = (index: number): number => (values[index] ?? 0) - (rounded[index] ?? 0);
  const order = (pick: (index: number) => boolean, sign: number): number | undefined =>
    rounded
      .map((_, index) => index)
      .filter(pick)
      .sort((a, b) => sign * (rest(b) - rest(a)))[0];
  const sum = (): number => rounded.reduce((all, value) => all + value, 0);
  while (sum() < total) {
    const at = order(() => true, 1);
    if (at === undefined) break;
    rounded[at] = (rounded[at] ?? 0) + 1;
  }
  while (sum() > total) {
    const at = order((index) => (rounded[index] ?? 0) > (leasts[index] ?? 0), -1);
    if (at === undefined) break;
    rounded[at] = (rounded[at] ?? 0) - 1;
  }
  return rounded;
}
