/**
 * Changes of dials on running boards. Quick presses become one line to the
 * board at a time, always with the newest value; what was done can be undone.
 */
import { signal } from '@preact/signals';
import type { CallArgs, Outcome, Workbench } from '../../shared/workbench/contract.ts';
import { timeText } from '../../shared/workbench/words.ts';
import type { History, Step } from './history.ts';

export interface DialPlace {
  readonly board: string;
  readonly site: number;
  readonly dial: number;
}

/** Changes that belong together and are undone together; times in ms. */
export interface Change extends DialPlace {
  readonly from: number;
  readonly to: number;
}

/** Presses on one dial within this time are one step of undo, and one change in the list, ms. */
export const TOGETHER = 1_500;

interface Parts {
  readonly history: History;
  readonly workbench: Workbench;
  readonly now: () => number;
  /** The running value, ms; null when no board runs this site. */
  readonly running: (place: DialPlace) => number | null;
  readonly confirmed: (place: DialPlace, ms: number) => void;
  readonly refused: (place: DialPlace, outcome: Extract<Outcome<unknown>, { ok: false }>) => void;
  /** "Market Cross green of Fore Street". */
  readonly nameOf: (place: DialPlace) => string;
  /** A person turned a dial, or had it turned back: `to` is asked for, or what it fell back to. */
  readonly turned: (place: DialPlace, to: number, isBack?: boolean) => void;
}

/** Who changes several times at once. */
type Who = CallArgs<'tune'>['who'];

export class Nudges {
  /** What was asked for and is not yet confirmed, by `dialKey`. */
  readonly wanted = signal<ReadonlyMap<string, number>>(new Map());
  readonly #parts: Parts;
  readonly #busy = new Set<string>();
  /** The newest step, while presses may still be added to it. */
  #open: { readonly step: Step; readonly change: Change } | null = null;
  #lastAt = Number.NEGATIVE_INFINITY;

  constructor(parts: Parts) {
    this.#parts = parts;
  }

  /** Asks for a time and remembers the change for undo. */
  async nudge(place: DialPlace, ms: number): Promise<void> {
    const from = this.value(place);
    if (from === null || from === ms) return;
    this.#remember({ ...place, from, to: ms });
    this.#parts.turned(place, ms);
    await this.#ask(place, ms);
  }

  /**
   * Several times of one board in one step, which is undone in one; `what` is the line of the log, without its
   * full stop: "Switched to B". False when the board took none.
   */
  many(changes: readonly Change[], what: string, who: Who): Promise<boolean> {
    return this.#parts.history.take(async () => {
      if (changes.length === 0 || !(await this.#tune(changes, ({ to }) => to, what, who))) return null;
      this.#open = null;
      return {
        what: `${what}.`,
        undo: () => this.#tune(changes, ({ from }) => from, `Undid: ${what}`, 'undo'),
        redo: () => this.#tune(changes, ({ to }) => to, `Did again: ${what}`, who),
      };
    });
  }

  /** Changes that something else makes, such as Put back, as one step; null where nothing changes. */
  stepOf(changes: readonly Change[], what: string): Step | null {
    return changes.length > 0 ? this.#step(changes, what) : null;
  }

  /** The value that is shown: asked for, else running. */
  value(place: DialPlace): number | null {
    return this.wanted.value.get(dialKey(place)) ?? this.#parts.running(place);
  }

  /** Forgets what was asked of a board that is gone: nothing old is sent when it comes back. */
  drop(board: string): void {
    const left = [...this.wanted.peek()].filter(([key]) => !key.startsWith(`${board} `));
    if (left.length < this.wanted.peek().size) this.wanted.value = new Map(left);
  }

  /** The numbers of sites and dials mean something else now. */
  clear(): void {
    this.wanted.value = new Map();
    this.#open = null;
  }

  #remember(change: Change): void {
    const { history } = this.#parts;
    const now = this.#parts.now();
    const open = this.#open?.step === history.newest ? this.#open : null;
    const isSame = open && dialKey(open.change) === dialKey(change) && now - this.#lastAt < TOGETHER;
    const whole = isSame ? { ...change, from: open.change.from } : change;
    const step = this.#step([whole]);
    if (isSame) history.replaceNewest(step);
    else history.add(step);
    this.#open = { step, change: whole };
    this.#lastAt = now;
  }

  #step(changes: readonly Change[], what?: string): Step {
    const all = async (to: (change: Change) => number): Promise<boolean> => {
      this.#open = null;
      const [only] = changes;
      if (only && changes.length === 1) this.#parts.turned(only, to(only));
      const taken = await Promise.all(changes.map((change) => this.#ask(change, to(change))));
      return taken.every(Boolean);
    };
    const [change] = changes;
    const said = what ?? (change && `Changed ${this.#parts.nameOf(change)} to ${timeText(change.to)}.`);
    return {
      ...(said === undefined ? {} : { what: said }),
      undo: () => all(({ from }) => from),
      redo: () => all(({ to }) => to),
    };
  }

  async #tune(changes: readonly Change[], to: (change: Change) => number, what: string, who: Who): Promise<boolean> {
    const [first] = changes;
    if (!first) return false;
    this.#open = null;
    for (const change of changes) this.#want(dialKey(change), to(change));
    const outcome = await this.#parts.workbench.call('tune', {
      board: first.board,
      changes: changes.map((change) => ({ site: change.site, dial: change.dial, ms: to(change) })),
      what,
      who,
    });
    if (outcome.ok)
      for (const { site, dial, ms } of outcome.value.changes) this.#parts.confirmed({ ...first, site, dial }, ms);
    else this.#parts.refused(first, outcome);
    for (const change of changes) this.#want(dialKey(change), null);
    return outcome.ok;
  }

  /** False when the board refused it. */
  async #ask(place: DialPlace, ms: number): Promise<boolean> {
    const key = dialKey(place);
    this.#want(key, ms);
    // Whoever is asking goes on with this one.
    if (this.#busy.has(key)) return true;
    let isTaken = true;
    this.#busy.add(key);
    for (let next = this.#next(key); next !== null; next = this.#next(key)) {
      const { board, site, dial } = place;
      const outcome = await this.#parts.workbench.call('nudge', { board, site, dial, ms: next });
      if (outcome.ok) this.#parts.confirmed(place, outcome.value.ms);
      // A newer wish goes out next; a board that was lost meanwhile has no wishes left.
      if (!outcome.ok || this.#next(key) === next) this.#want(key, null);
      isTaken = outcome.ok;
      if (outcome.ok) continue;
      this.#parts.refused(place, outcome);
      const still = this.#parts.running(place);
      if (still !== null) this.#parts.turned(place, still, true);
    }
    this.#busy.delete(key);
    return isTaken;
  }

  #next(key: string): number | null {
    return this.wanted.peek().get(key) ?? null;
  }

  #want(key: string, ms: number | null): void {
    const wanted = new Map(this.wanted.peek());
    if (ms === null) wanted.delete(key);
    else wanted.set(key, ms);
    this.wanted.value = wanted;
  }
}

export function dialKey({ board, site, dial }: DialPlace): string {
  return `${board} ${site} ${dial}`;
}
