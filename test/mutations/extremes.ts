/** Layouts in which one number is as small or as large as it may be, for each field that holds a number. */
import { STANDING } from './bases.ts';
import { judge } from './judge.ts';
import type { MutatedFile } from './mutate.ts';
import { type FoundPlace, placesIn, put, valueIn } from './tree.ts';

const VALUES = [0.001, 1, 255, 100_000, 2 ** 31, 1e12, Number.MAX_SAFE_INTEGER, 1e300];

const numbersIn = (document: unknown): FoundPlace[] =>
  placesIn(document).filter((place) => typeof valueIn(place) === 'number');

/** Of each field the smallest and the largest value with which the layout still opens. */
export function extremeFiles(): MutatedFile[] {
  const seen = new Set<string>();
  return STANDING.flatMap((base) => {
    const fields = numbersIn(JSON.parse(base));
    return fields.flatMap(({ pattern }, index) => {
      if (seen.has(pattern)) return [];
      seen.add(pattern);
      const opening = VALUES.flatMap((value): MutatedFile[] => {
        const document = JSON.parse(base);
        const field = numbersIn(document)[index];
        if (field) put(field, value);
        const text = JSON.stringify(document);
        const what = `${value} at ${pattern}`;
        return judge('extreme.json', text) === 'refused'
          ? []
          : [{ name: 'extreme.json', bytes: Buffer.from(text), what }];
      });
      return [...new Set([opening[0], opening.at(-1)])].filter((file) => file !== undefined);
    });
  });
}
