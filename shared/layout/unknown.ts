/** Fields of a file that this program does not know: left alone when it is read, and still there when it is written. */
import type { z } from 'zod';
import { type Layout, LayoutSchema } from './schema.ts';

type Fields = Record<PropertyKey, unknown>;

/** Would reach into the language itself; no layout has such a field. */
const NEVER = '__proto__';

/** A copy without the fields that the issues call unknown. */
export function withoutUnknown(document: unknown, issues: readonly z.core.$ZodIssue[]): unknown {
  const cleaned = structuredClone(document);
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue;
    let place: unknown = cleaned;
    for (const step of issue.path) place = (place as Fields)[step];
    for (const key of issue.keys) delete (place as Fields)[key];
  }
  return cleaned;
}

/** `read` with the fields that only `original` has, behind its own. Lists are paired by their order. */
export function withUnknown<T>(read: T, original: unknown): T {
  if (Array.isArray(read) && Array.isArray(original)) {
    return read.map((item, index) => withUnknown(item, original[index])) as T;
  }
  if (!isFields(read) || !isFields(original)) return read;
  const own = Object.entries(read).map(([key, value]) => [key, withUnknown(value, original[key])]);
  const more = Object.entries(original).filter(
    ([key, value]) => key !== NEVER && value !== undefined && !Object.hasOwn(read, key),
  );
  return Object.fromEntries([...own, ...more]) as T;
}

const knownOf = new WeakMap<Layout, Layout>();

/** The same layout without the fields that this program does not know; itself where it does not keep to the schema. */
export function known(layout: Layout): Layout {
  const before = knownOf.get(layout);
  if (before) return before;
  const only = parsed(layout)?.known ?? layout;
  knownOf.set(layout, only);
  return only;
}

/** The fields of a layout in the order of the schema, unknown ones behind; null where it does not keep to the schema. */
export function inOrder(layout: unknown): Fields | null {
  const found = parsed(layout);
  if (found === null) return null;
  return found.isAll ? found.known : withUnknown<Fields>(found.known, layout);
}

/** `isAll`: nothing in it is unknown. */
function parsed(layout: unknown): { readonly known: Layout; readonly isAll: boolean } | null {
  const first = LayoutSchema.safeParse(layout);
  if (first.success) return { known: first.data, isAll: true };
  const second = LayoutSchema.safeParse(withoutUnknown(layout, first.error.issues));
  return second.success ? { known: second.data, isAll: false } : null;
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
