/** Which installed packages one package needs. */

interface Lock {
  readonly packages: Readonly<Record<string, { readonly dependencies?: Readonly<Record<string, string>> }>>;
}

/** Places of a package and of everything it needs, such as `node_modules/serialport`, sorted. Throws at one that is missing. */
export function withDependencies({ packages }: Lock, name: string): string[] {
  const found = new Set<string>();
  const add = (from: string, needed: string): void => {
    const place = resolve(packages, from, needed);
    if (found.has(place)) return;
    found.add(place);
    for (const next of Object.keys(packages[place]?.dependencies ?? {})) add(place, next);
  };
  add('', name);
  return [...found].sort();
}

/** As Node looks for it: beside the files of the asking package, then in each folder above. */
function resolve(packages: Lock['packages'], from: string, needed: string): string {
  for (let at = from; ; at = at.replace(/(^|\/)node_modules\/(@[^/]+\/)?[^/]+$/, '')) {
    const place = `${at === '' ? '' : `${at}/`}node_modules/${needed}`;
    if (place in packages) return place;
    if (at === '') throw new Error(`the lock has no ${needed} for ${from}`);
  }
}
