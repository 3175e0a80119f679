/** Places in a JSON document. */

export interface Place {
  /** The object or list that holds it. */
  readonly holder: Record<string, unknown> | unknown[];
  readonly key: string | number;
}

export interface FoundPlace extends Place {
  /** Its path without the numbers of lists: the same for all places of one kind. */
  readonly pattern: string;
}

/** Every place under the top, in order. */
export function placesIn(value: unknown, around = ''): FoundPlace[] {
  if (typeof value !== 'object' || value === null) return [];
  const holder = value as Place['holder'];
  const isList = Array.isArray(holder);
  return Object.entries(value).flatMap(([key, inner]) => {
    const pattern = isList ? `${around}[]` : `${around}.${key}`;
    return [{ holder, key: isList ? Number(key) : key, pattern }, ...placesIn(inner, pattern)];
  });
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
