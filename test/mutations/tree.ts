/** Places in a JSON document. */

export interface Place {
  /** The object or list that holds it. */
  readonly holder: Record<string, unknown> | unknown[];
  readonly key: string | number;
}

/** Every place under the top, in order. */
export function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return [];
  const holder = value as Place['holder'];
  return Object.entries(value).flatMap(([key, inner]) => [
    { holder, key: Array.isArray(holder) ? Number(key) : key },
    ...placesIn(inner),
  ]);
}

export function valueIn({ holder, key }: Place): unknown {
  return (holder as Record<string | number, unknown>)[key];
}

/** Also where the key is a name like `__proto__`, as JSON has it. */
export function put({ holder, key }: Place, value: unknown): void {
  Object.defineProperty(holder, key, { value, configurable: true, enumerable: true, writable: true });
}

export function takeOut({ holder, key }: Place): void {
  if (Array.isArray(holder)) holder.splice(Number(key), 1);
  else delete holder[key];
}

export function everyText(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(everyText);
}
