/** Ids and names that nothing else in the layout has. */
import type { Layout } from '../schema.ts';

/** Longest id and name that the file may hold (scalars.ts). */
const ID = 40;
const NAME = 60;

/** `Quay Hill pelican` to `quay-hill-pelican`, with a number where that is taken. */
export function freeId(layout: Layout, name: string): string {
  const taken = new Set([...layout.sites, ...(layout.inputs ?? []), ...(layout.groups ?? [])].map(({ id }) => id));
  const plain = name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, ID - 12);
  return numbered(plain.replace(/-+$/, '') || 'site', '-', taken);
}

/** The name itself, or with a number where a site is called so already. */
export function freeName(layout: Layout, name: string): string {
  return numbered(name.trim().slice(0, NAME - 4), ' ', new Set(layout.sites.map((site) => site.name)));
}

function numbered(base: string, joint: string, taken: ReadonlySet<string>): string {
  let candidate = base;
  for (let number = 2; taken.has(candidate); number++) candidate = `${base}${joint}${number}`;
  return candidate;
}
