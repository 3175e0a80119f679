/** The outputs and inputs that a site names, whatever its kind. */
import type { Lamp } from '../outputs.ts';

/** Where a lamp hangs. */
export type Hang = Pick<Lamp, 'pin' | 'bit'>;

/** Fields that name inputs by their ids: lists, and single ones. */
const LISTS = [
  'demand',
  'buttons',
  'detectors',
  'kerbDetectors',
  'onCrossingDetectors',
  'inputs',
  'opposing',
  'sections',
];
const SINGLE = ['detector', 'switch', 'passing'];
const EACH = ['switches'];

/** A copy in which each lamp hangs where `hang` says; lamps without an output are left alone. */
export function withHangs<T>(value: T, hang: (now: Hang, head: object) => Hang): T {
  return each(value, value as object, (lamp, head) => {
    const { pin, bit, ...rest } = lamp as Hang;
    if (pin === undefined && bit === undefined) return lamp;
    return { ...hang({ ...(pin === undefined ? {} : { pin }), ...(bit === undefined ? {} : { bit }) }, head), ...rest };
  }) as T;
}

/** `head`: the object or list that the value stands in. */
function each(value: unknown, head: object, change: (lamp: object, head: object) => object): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => each(item, value, change));
  const entries = Object.entries(value).map(([key, item]) => [key, each(item, value, change)]);
  return change(Object.fromEntries(entries), head);
}

/** A copy in which inputs go by other ids. */
export function withInputs<T>(value: T, rename: (id: string) => string): T {
  return renamed(value, rename) as T;
}

function renamed(value: unknown, rename: (id: string) => string): unknown {
  if (Array.isArray(value)) return value.map((item) => renamed(item, rename));
  if (typeof value !== 'object' || value === null) return value;
  const name = (item: unknown): unknown => (typeof item === 'string' ? rename(item) : renamed(item, rename));
  const entries = Object.entries(value).map(([key, item]): [string, unknown] => {
    if (SINGLE.includes(key)) return [key, name(item)];
    if (LISTS.includes(key) && Array.isArray(item)) return [key, item.map(name)];
    if (EACH.includes(key) && typeof item === 'object' && item !== null) {
      return [key, Object.fromEntries(Object.entries(item).map(([side, id]) => [side, name(id)]))];
    }
    return [key, renamed(item, rename)];
  });
  return Object.fromEntries(entries);
}

/** Ids of the inputs that a value names, each once. */
export function inputsIn(value: unknown): string[] {
  const found = new Set<string>();
  withInputs(value, (id) => {
    found.add(id);
    return id;
  });
  return [...found];
}
