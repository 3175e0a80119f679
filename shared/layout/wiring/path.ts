/** Places in the document by their paths, as findings and lamps name them. */

/** `sites[0].phases[1].lamps.red` in steps: `['sites', 0, 'phases', 1, 'lamps', 'red']`. */
export function stepsOf(path: string): (string | number)[] {
  return [...path.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map(([, index, key]) =>
    index === undefined ? (key ?? '') : Number(index),
  );
}

/** What stands at a path; undefined where there is nothing. */
export function valueAt(document: unknown, path: string): unknown {
  return valueIn(document, stepsOf(path));
}

/** The same for a path in steps. */
export function valueIn(document: unknown, steps: readonly (string | number)[]): unknown {
  let value = document;
  for (const step of steps) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** A copy with another value at a path that exists; undefined takes the field out. All other parts are the same objects. */
export function withValueAt<T>(document: T, path: string, value: unknown): T {
  return replaced(document, stepsOf(path), value) as T;
}

function replaced(within: unknown, [step, ...rest]: readonly (string | number)[], value: unknown): unknown {
  if (step === undefined) return value;
  if (Array.isArray(within)) return within.map((item, index) => (index === step ? replaced(item, rest, value) : item));
  if (typeof within !== 'object' || within === null) return within;
  const copy: Record<string, unknown> = { ...within };
  const next = replaced(copy[step], rest, value);
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return copy;
}
