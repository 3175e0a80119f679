/** The lamps of a board in the order of a check, and how the record of a check speaks of them. */
import type { Load } from '../electrics/model.ts';
import type { CheckedLamp, LampKey } from '../layout/check-record.ts';

/** A signal of some makes has its lamps in an order of its own: this one from the top (Network Rail glossary). */
const SIGNAL_FROM_TOP = ['upperYellow', 'green', 'yellow', 'red'];

/** Lamps that sit in one head: those at one place of the document. */
export function headOf(load: Load): string {
  // A place that ends in a number is a lamp alone, such as a beacon.
  return load.path.endsWith(']') ? load.path : load.path.replace(/\.[^.]*$/, '');
}

/** Site by site, head by head, each head from its top lamp to the bottom one; what belongs to no site comes last. */
export function inCheckOrder(loads: readonly Load[]): Load[] {
  const groups = new Map<string, Map<string, Load[]>>();
  for (const load of [...loads].sort((a, b) => a.lamp - b.lamp)) {
    const heads = within(groups, load.site ?? '', () => new Map<string, Load[]>());
    within(heads, headOf(load), () => []).push(load);
  }
  const sites = [...groups.keys()].sort((a, b) => Number(a === '') - Number(b === ''));
  return sites.flatMap((site) => [...(groups.get(site)?.values() ?? [])].flatMap(fromTop));
}

/** All lamps of the head that a lamp sits in, from the top; the lamp itself is among them. */
export function lampsOfHead(loads: readonly Load[], load: Load): Load[] {
  return fromTop(loads.filter((other) => other.site === load.site && headOf(other) === headOf(load)));
}

function fromTop(lamps: readonly Load[]): Load[] {
  if (!lamps.some(({ path }) => part(path) === 'yellow')) return [...lamps];
  return [...lamps].sort((a, b) => rank(a) - rank(b));
}

function rank({ path }: Load): number {
  return SIGNAL_FROM_TOP.indexOf(part(path));
}

function part(path: string): string {
  return path.slice(path.lastIndexOf('.') + 1);
}

function within<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const found = map.get(key) ?? make();
  map.set(key, found);
  return found;
}

/** How a record names the lamp. */
export function keyOf({ site, label, colour }: Load): LampKey {
  return { ...(site === null ? {} : { site }), label, colour };
}

export function keyText({ site, label, colour }: LampKey): string {
  return `${site ?? ''}\n${label}\n${colour}`;
}

/** As a sentence speaks of it: "Market Cross, Fore Street, red". */
export function lampText(load: Pick<Load, 'siteName' | 'label' | 'colour'>): string {
  const parts = [load.siteName, load.label, load.colour];
  return parts.filter((text, at) => text !== '' && parts.indexOf(text) === at).join(', ');
}

/** The lamps that a record can mean; more than one where the document gives two lamps one name. */
export function lampsFor(loads: readonly Load[], key: LampKey): Load[] {
  return loads.filter((load) => hasKey(load, key));
}

function hasKey(load: Load, key: LampKey): boolean {
  return load.label === key.label && load.colour === key.colour && load.site === (key.site ?? null);
}

/** Whether an answer is about this lamp; of lamps with one name the output tells them apart. */
export function isAbout(loads: readonly Load[], load: Load, checked: CheckedLamp): boolean {
  if (!hasKey(load, checked)) return false;
  return checked.output === load.outputName || lampsFor(loads, checked).length === 1;
}
