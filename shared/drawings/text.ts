/** How wide text is and how times are written. Nobody measures here: widths are estimates on the safe side. */

/** Sizes, px. Nothing is smaller than 14. */
export const TEXT = 15;
export const SMALL = 14;
export const TITLE = 20;

/** Shares of the size, those of a wide face; anything else counts as an ideograph. */
const WIDTHS: readonly (readonly [RegExp, number])[] = [
  [/[ijl.,:;'|!]/, 0.34],
  [/[ftrIJ ()[\]\-/]/, 0.46],
  [/[a-hknopqsuvxyzL0-9?"+=<>–·]/, 0.66],
  [/[mwMW%@…→]/, 1.02],
  [/[A-Z&#_À-ɏ]/, 0.8],
];

/** Width of a line of text, px, at least what any common face needs. */
export function widthOf(text: string, size: number, weight: 'normal' | 'bold' = 'normal'): number {
  let sum = 0;
  for (const letter of text) sum += WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? 1.1;
  return sum * size * (weight === 'bold' ? 1.1 : 1);
}

/** The text, cut with an ellipsis where it is too wide. */
export function shorten(text: string, width: number, size: number, weight: 'normal' | 'bold' = 'normal'): string {
  if (widthOf(text, size, weight) <= width) return text;
  const letters = [...text];
  while (letters.length > 1) {
    letters.pop();
    const cut = `${letters.join('').trimEnd()}…`;
    if (widthOf(cut, size, weight) <= width) return cut;
  }
  return '…';
}

/** The first of several wordings that fits, or none. */
export function firstThatFits(wordings: readonly string[], width: number, size: number): string | null {
  return wordings.find((it) => widthOf(it, size) <= width) ?? null;
}

/** `18.0 s`, `0.75 s`, from a minute on `1:05`, `1:05.5`. */
export function timeText(ms: number): string {
  const hundredths = Math.round(ms / 10);
  const decimals = hundredths % 100 === 0 ? 0 : hundredths % 10 === 0 ? 1 : 2;
  if (hundredths < 6000) return `${(hundredths / 100).toFixed(Math.max(1, decimals))} s`;
  const minutes = Math.floor(hundredths / 6000);
  const rest = hundredths - minutes * 6000;
  return `${minutes}:${rest < 1000 ? '0' : ''}${(rest / 100).toFixed(decimals)}`;
}

/** A round step for an axis, ms: the least whose marks stand at least so many px apart. */
export function axisStep(pixelsPerMs: number, apart: number): number {
  const steps = [100, 200, 500, 1000, 2000, 5000, 10_000, 15_000, 30_000, 60_000, 300_000, 900_000, 3_600_000];
  return steps.find((ms) => ms * pixelsPerMs >= apart) ?? 36_000_000;
}

/** Lines of items side by side, none wider than `width`. */
export function flow<T extends { readonly width: number }>(
  items: readonly T[],
  width: number,
): { readonly item: T; readonly x: number; readonly line: number }[] {
  let x = 0;
  let line = 0;
  return items.map((item) => {
    if (x > 0 && x + item.width > width) {
      x = 0;
      line += 1;
    }
    const placed = { item, x, line };
    x += item.width;
    return placed;
  });
}
