/**
 * Two sets of times to go to and fro between, A and B: of the site at hand, or of everything on its board. Once both
 * are noted, a dial that is turned changes the one that runs. Sets outlive the window; each layout, board and site has its own.
 */
import { computed, type ReadonlySignal, type Signal } from '@preact/signals';
import { type DialTimes, dialTimes } from './compare.ts';
import type { OpenSite } from './document.ts';
import type { Model } from './model.ts';
import type { Change, DialPlace } from './nudges.ts';
import { readRecord } from './records.ts';

export type Letter = 'A' | 'B';
export type SetScope = 'site' | 'board';

/** ms by `site/dial`, ids of the layout. */
type Times = Readonly<Record<string, number>>;

interface Pair {
  readonly A?: Times;
  readonly B?: Times;
  /** The one that was noted or switched to last. */
  readonly last?: Letter;
}

/** A dial with its times in both sets, ms; null where a set does not have it. */
export interface SetDial extends DialTimes {
  readonly a: number | null;
  readonly b: number | null;
}

interface Parts {
  readonly model: Pick<Model, 'board' | 'nudges' | 'open' | 'siteAtHand' | 'boardName'>;
  readonly scope: Signal<SetScope>;
  /** Text that outlives the window. */
  readonly kept: Signal<string>;
}

export class SetsModel {
  readonly scope: Signal<SetScope>;
  /** Every dial that the sets at hand are about. */
  readonly dials: ReadonlySignal<readonly SetDial[]>;
  /** Which set runs; null: neither, or nothing is known. */
  readonly on: ReadonlySignal<Letter | null>;
  readonly #parts: Parts;
  readonly #pairs: ReadonlySignal<Readonly<Record<string, Pair>>>;
  readonly #key: ReadonlySignal<string | null>;
  /** The set that went along with the last turn. */
  #followed: Letter | null = null;

  constructor(parts: Parts) {
    this.#parts = parts;
    this.scope = parts.scope;
    this.#pairs = computed(() => readPairs(parts.kept.value));
    this.#key = computed(() => {
      const { layout } = parts.model.open.value;
      const site = parts.model.siteAtHand.value;
      return layout && site ? keyOf(layout.name, site, this.scope.value) : null;
    });
    this.dials = computed(() => {
      const { A, B } = this.#pair();
      return this.#sites().flatMap((site) =>
        site.names.dials.map((named, dial) => {
          const id = `${site.id}/${named.id}`;
          return { ...dialTimes(parts.model, site, dial), a: A?.[id] ?? null, b: B?.[id] ?? null };
        }),
      );
    });
    this.on = computed(() => {
      const { last = 'A' } = this.#pair();
      const other = last === 'A' ? 'B' : 'A';
      return this.#runs(last) ? last : this.#runs(other) ? other : null;
    });
  }

  has(letter: Letter): boolean {
    return this.#pair()[letter] !== undefined;
  }

  /** Dials that A and B have differently. */
  get apart(): readonly SetDial[] {
    return this.dials.value.filter(({ a, b }) => a !== null && b !== null && a !== b);
  }

  /** Notes what runs. */
  note(letter: Letter): void {
    const times = Object.fromEntries(
      this.dials.peek().flatMap(({ site, id, running }) => (running === null ? [] : [[`${site.id}/${id}`, running]])),
    );
    this.#store({ ...this.#pair(), [letter]: times, last: letter });
  }

  forget(): void {
    this.#store(null);
  }

  /** The one that a switch would lead to. */
  get next(): Letter {
    const on = this.on.value;
    if (on !== null) return on === 'A' ? 'B' : 'A';
    return this.#pair().last ?? 'A';
  }

  /** To the other one: one step of undo, one line in the log. */
  async switch(to: Letter = this.next): Promise<void> {
    const changes = this.dials.peek().flatMap(({ site, dial, running, a, b }): Change[] => {
      const wanted = to === 'A' ? a : b;
      if (running === null || wanted === null || running === wanted) return [];
      return [{ board: site.board, site: site.number, dial, from: running, to: wanted }];
    });
    const site = this.#parts.model.siteAtHand.peek();
    const where = this.scope.peek() === 'site' && site ? ` of ${site.names.name}` : '';
    const isDone =
      changes.length === 0 || (await this.#parts.model.nudges.many(changes, `Switched to ${to}${where}`, 'sets'));
    if (isDone) this.#store({ ...this.#pair(), last: to });
  }

  /**
   * A dial is turned: the set that runs goes along, once both are noted; before that the turned times are on their way
   * to the other one. `isBack`: it fell back, as the board refused the turn.
   */
  follow({ board, site, dial }: DialPlace, to: number, isBack: boolean): void {
    const on = isBack ? this.#followed : this.on.peek();
    const there = this.#sites().find((it) => it.board === board && it.number === site);
    const id = there && `${there.id}/${there.names.dials[dial]?.id}`;
    this.#followed = on;
    if (on === null || id === undefined || !this.has('A') || !this.has('B')) return;
    this.#store({ ...this.#pair(), [on]: { ...this.#pair()[on], [id]: to }, last: on });
  }

  #runs(letter: Letter): boolean {
    if (!this.has(letter)) return false;
    return this.dials.value.every(({ a, b, running }) => {
      const wanted = letter === 'A' ? a : b;
      return wanted === null || wanted === running;
    });
  }

  #sites(): readonly OpenSite[] {
    const { open, siteAtHand } = this.#parts.model;
    const site = siteAtHand.value;
    if (!site) return [];
    return this.scope.value === 'site' ? [site] : open.value.sites.filter(({ board }) => board === site.board);
  }

  #pair(): Pair {
    return this.#pairs.value[this.#key.value ?? ''] ?? {};
  }

  #store(pair: Pair | null): void {
    const key = this.#key.peek();
    if (key === null) return;
    const { [key]: _, ...others } = this.#pairs.peek();
    this.#parts.kept.value = JSON.stringify(pair === null ? others : { ...others, [key]: pair });
  }
}

function keyOf(layout: string, site: OpenSite, scope: SetScope): string {
  return JSON.stringify([layout, site.board, ...(scope === 'site' ? [site.id] : [])]);
}

/** What was stored may be of another version, or damaged: then there are no sets. */
function readPairs(text: string): Readonly<Record<string, Pair>> {
  return Object.fromEntries(Object.entries(readRecord(text)).map(([key, value]) => [key, readPair(value)]));
}

function readPair(value: unknown): Pair {
  const { A, B, last } = (value ?? {}) as Partial<Record<keyof Pair, unknown>>;
  const [a, b] = [readTimes(A), readTimes(B)];
  return { ...(a && { A: a }), ...(b && { B: b }), ...(last === 'A' || last === 'B' ? { last } : {}) };
}

function readTimes(value: unknown): Times | null {
  if (typeof value !== 'object' || value === null) return null;
  return Object.fromEntries(Object.entries(value).filter(([, ms]) => Number.isInteger(ms) && ms >= 0));
}
