/** Earlier sessions of this computer, read and searched in parts, so that many years hold nothing up. */
import { batch, signal } from '@preact/signals';
import type { EarlierSession, SessionFind } from '../../shared/workbench/calls/sessions.ts';
import type { CallResults, Outcome, Workbench } from '../../shared/workbench/contract.ts';

/** Sessions in one part of the list, and in one of a search. */
const LISTED = 50;
const SEARCHED = 25;
/** Finds that are shown; who has more looks for something rarer. */
export const MOST_FOUND = 200;

export interface SearchState {
  readonly words: string;
  readonly found: readonly SessionFind[];
  readonly looked: number;
  readonly total: number;
  /** Files that could not be read. */
  readonly unreadable: readonly string[];
  readonly state: 'running' | 'done' | 'stopped' | 'full';
}

export class EarlierSessions {
  /** Newest first; null before they were read. */
  readonly list = signal<readonly EarlierSession[] | null>(null);
  readonly total = signal(0);
  readonly rest = signal(false);
  /** Null: nothing is looked for. */
  readonly search = signal<SearchState | null>(null);
  readonly #call: Workbench['call'];
  #turn = 0;
  #reading: Promise<void> | null = null;

  constructor(call: Workbench['call']) {
    this.#call = call;
  }

  /** The newest ones afresh. */
  read(): Promise<void> {
    return this.#part(null);
  }

  /** Older ones than those that are listed. */
  async more(): Promise<void> {
    if (this.rest.peek()) await this.#part(this.list.peek()?.at(-1)?.name ?? null);
  }

  #part(before: string | null): Promise<void> {
    this.#reading ??= this.#readPart(before).finally(() => {
      this.#reading = null;
    });
    return this.#reading;
  }

  async #readPart(before: string | null): Promise<void> {
    const outcome = await this.#call('listSessions', { before, most: LISTED });
    batch(() => {
      const old = before === null ? [] : (this.list.peek() ?? []);
      this.list.value = outcome.ok ? [...old, ...outcome.value.sessions] : old;
      if (!outcome.ok) return;
      this.total.value = outcome.value.total;
      this.rest.value = outcome.value.rest;
    });
  }

  /** Looks through all of them, the newest first; a later search ends this one. */
  async find(words: string): Promise<void> {
    this.#turn += 1;
    const turn = this.#turn;
    let state: SearchState = {
      words,
      found: [],
      looked: 0,
      total: this.total.peek(),
      unreadable: [],
      state: 'running',
    };
    this.search.value = state;
    let before: string | null = null;
    for (;;) {
      const outcome: Outcome<CallResults['searchSessions']> = await this.#call('searchSessions', {
        words,
        groups: [],
        before,
        most: SEARCHED,
      });
      if (turn !== this.#turn) return;
      if (!outcome.ok) break;
      const { found, looked, unreadable, next }: CallResults['searchSessions'] = outcome.value;
      const all = [...state.found, ...found];
      state = {
        ...state,
        found: all.slice(0, MOST_FOUND),
        looked: state.looked + looked,
        unreadable: [...state.unreadable, ...unreadable],
        state: next === null ? 'done' : all.length >= MOST_FOUND ? 'full' : 'running',
      };
      this.search.value = state;
      if (state.state !== 'running') return;
      before = next;
    }
    this.search.value = { ...state, state: 'stopped' };
  }

  /** What was found so far stays. */
  stop(): void {
    this.#turn += 1;
    const state = this.search.peek();
    if (state?.state === 'running') this.search.value = { ...state, state: 'stopped' };
  }

  clear(): void {
    this.#turn += 1;
    this.search.value = null;
  }
}
