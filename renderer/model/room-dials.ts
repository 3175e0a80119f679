/** Which two dials of a site are shown across the room. */
import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { OpenLayout, OpenSite } from './document.ts';
import { readRecord, withRecord } from './records.ts';

export const SHOWN = 2;
/** Choices of so many sites are remembered. */
const SITES = 200;

interface Parts {
  readonly open: ReadonlySignal<OpenLayout>;
  /** What was asked of boards, by `dialKey`. */
  readonly wanted: ReadonlySignal<ReadonlyMap<string, number>>;
  /** What was chosen, JSON. */
  readonly kept: Signal<string>;
}

export class RoomDials {
  /** Keys of dials, the one turned last first. */
  readonly turned = signal<readonly string[]>([]);
  readonly #parts: Parts;

  constructor(parts: Parts) {
    this.#parts = parts;
    effect(() => {
      const keys = [...parts.wanted.value.keys()];
      if (keys.length === 0) return;
      const before = this.turned.peek();
      this.turned.value = [...keys, ...before.filter((key) => !keys.includes(key))].slice(0, SITES);
    });
  }

  /** Numbers of the dials in the site: the chosen ones, else the ones turned last, else the first greens. */
  of(site: OpenSite): number[] {
    const own = turnable(site);
    const chosen = this.#chosen(site).map((id) =>
      id === null ? -1 : site.names.dials.findIndex((it) => it.id === id),
    );
    const turned = this.turned.value.flatMap((key) => {
      const found = own.find((dial) => key === `${site.board} ${site.number} ${dial}`);
      return found === undefined ? [] : [found];
    });
    const greens = own.filter((dial) => /green/.test(site.names.dials[dial]?.id ?? ''));
    const rest = [...turned, ...greens, ...own].filter((dial) => !chosen.includes(dial));
    const free = [...new Set(rest)];
    const shown = Array.from({ length: SHOWN }, (_, place) => {
      const found = chosen[place] ?? -1;
      return own.includes(found) ? found : free.shift();
    }).filter((dial) => dial !== undefined);
    // The key under the thumb does not move when it is turned.
    return chosen.every((dial) => dial < 0) ? shown.sort((a, b) => a - b) : shown;
  }

  /** Shows a dial in one of the places; another that stood there gives way. */
  choose(site: OpenSite, place: number, dial: number): void {
    const now = this.of(site);
    const next = Array.from({ length: SHOWN }, (_, at) => (at === place ? dial : (now[at] ?? -1)));
    // Chosen for the other place, too: the two change places.
    const other = next.findIndex((it, at) => at !== place && it === dial);
    if (other >= 0) next[other] = now[place] ?? -1;
    const ids = next.map((it) => site.names.dials[it]?.id ?? null);
    const { kept } = this.#parts;
    kept.value = withRecord(kept.peek(), this.#key(site), ids, SITES);
  }

  /** Brings a dial into sight, in the place of the second one where it is not shown yet. */
  show(site: OpenSite, dial: number): void {
    if (turnable(site).includes(dial) && !this.of(site).includes(dial)) this.choose(site, SHOWN - 1, dial);
  }

  #chosen(site: OpenSite): (string | null)[] {
    const found = readRecord(this.#parts.kept.value)[this.#key(site)];
    return Array.isArray(found) ? found.map((id) => (typeof id === 'string' ? id : null)) : [];
  }

  #key(site: OpenSite): string {
    return `${this.#parts.open.value.layout?.name ?? ''} / ${site.id}`;
  }
}

/** Dials whose limits leave something to turn. */
export function turnable(site: OpenSite): number[] {
  return site.names.dials.flatMap((_, dial) => {
    const limits = site.program.dials[dial];
    return limits && limits.min < limits.max ? [dial] : [];
  });
}
