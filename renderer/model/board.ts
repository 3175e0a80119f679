/** One board of the layout as the panel knows it: link, tables, lamps, rows, time. */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { BoardState, Events, LayoutGlow, LiveState } from '../../shared/workbench/contract.ts';
import { BoardClock, since } from './clock.ts';

/** Whether a lamp is lit; unknown while no board runs this layout. */
export type LampLook = 'lit' | 'dark' | 'unknown';

export interface RunningRow {
  readonly row: number;
  /** Board time, ms. */
  readonly began: number;
}

export class BoardModel {
  readonly id: string;
  readonly state: Signal<BoardState>;
  readonly clock = new BoardClock();
  /** Hexadecimal, lamp 0 in bit 0 of the last digit; empty while unknown. */
  readonly lit = signal('');
  readonly rows = signal<readonly RunningRow[]>([]);
  /** What the lamps of a virtual layout really do; null on a real board. */
  readonly glow = signal<LayoutGlow | null>(null);
  /** Inputs that are held down from here, as by a train that stands on its detector. */
  readonly down = signal<ReadonlySet<number>>(new Set());
  /** The board runs this layout's table, perhaps with other times. */
  readonly runsLayout: ReadonlySignal<boolean>;
  readonly #lamps = new Map<number, ReadonlySignal<LampLook>>();
  /** Board time at which each lamp was last lit, ms. */
  readonly #litAt = new Map<number, number>();
  /** Board time of the newest whole report, ms: where held sites stand. */
  #liveAt = 0;

  constructor(id: string) {
    this.id = id;
    this.state = signal(emptyState(id));
    this.runsLayout = computed(() => {
      const { link, running } = this.state.value;
      return link === 'ready' && (running === 'same' || running === 'times');
    });
  }

  /** Look of one lamp; the same signal for each call. */
  lamp(index: number): ReadonlySignal<LampLook> {
    const known = this.#lamps.get(index);
    if (known) return known;
    const look = computed((): LampLook => {
      if (!this.runsLayout.value || this.lit.value === '') return 'unknown';
      return isLit(this.lit.value, index) ? 'lit' : 'dark';
    });
    this.#lamps.set(index, look);
    return look;
  }

  /** Board time at which the lamp was last seen to be lit anew, ms; null before that. */
  litAt(index: number): number | null {
    return this.#litAt.get(index) ?? null;
  }

  hearState(state: BoardState, wall: number): void {
    if (state.link !== 'ready') this.#forget(wall);
    this.state.value = state;
    // A board that starts another table, or is lost, has let them go.
    if (!this.runsLayout.peek() && this.down.peek().size > 0) this.down.value = new Set();
  }

  /** Remembers that an input is held down, or no longer. */
  holdDown(input: number, on: boolean): void {
    const down = new Set(this.down.peek());
    if (on) down.add(input);
    else down.delete(input);
    this.down.value = down;
  }

  hearLive(live: LiveState, wall: number): void {
    this.clock.reset(live.ms, wall);
    this.#litAt.clear();
    this.#liveAt = live.ms;
    this.lit.value = live.lit;
    this.rows.value = live.rows;
    this.glow.value = live.glow;
  }

  hearLamps({ ms, lit }: Events['lamps'], wall: number): void {
    this.clock.note(ms, wall);
    for (const index of this.#lamps.keys()) {
      if (isLit(lit, index) && !isLit(this.lit.peek(), index)) this.#litAt.set(index, ms);
    }
    this.lit.value = lit;
  }

  hearRow({ ms, site, row }: Events['row'], wall: number): void {
    this.clock.note(ms, wall);
    const rows = [...this.rows.peek()];
    rows[site] = { row, began: ms };
    this.rows.value = rows;
  }

  hearClock({ ms, pace }: Events['clock'], wall: number): void {
    this.clock.report(ms, wall, pace);
  }

  /** A dial that the board has just confirmed; the host's next report says the same. */
  confirmDial(site: number, dial: number, ms: number): void {
    const state = this.state.peek();
    if (!state.runningDials) return;
    const dials = state.runningDials.map((row, at) =>
      at === site ? row.map((value, i) => (i === dial ? ms : value)) : row,
    );
    this.state.value = { ...state, runningDials: dials };
  }

  /** Nothing that was true of the board is known any longer. */
  #forget(wall: number): void {
    this.clock.stop(wall);
    this.#litAt.clear();
    this.lit.value = '';
    this.rows.value = [];
    this.glow.value = null;
  }

  /** Ms since the running row of a site began; negative before a delayed start. */
  elapsed(site: number, wall: number): number | null {
    const row = this.rows.value[site];
    if (!row) return null;
    const { paused, held } = this.state.value;
    // While a site is held the board moves the begin of its row along with the time.
    const at = paused || held[site] ? this.#liveAt : this.clock.at(wall);
    return since(at, row.began);
  }
}

/** Bit `lamp` of a hexadecimal number whose last digit holds bits 0 to 3. */
export function isLit(lit: string, lamp: number): boolean {
  const digit = Number.parseInt(lit.charAt(lit.length - 1 - (lamp >> 2)), 16);
  return Number.isInteger(digit) && ((digit >> (lamp & 3)) & 1) === 1;
}

/** What is known of a board that nobody has spoken of yet. */
export function emptyState(board: string): BoardState {
  return {
    board,
    port: null,
    virtual: false,
    link: 'off',
    problem: null,
    powered: null,
    speed: null,
    who: null,
    running: 'unknown',
    kept: 'unknown',
    runningDials: null,
    keptDials: null,
    unkept: false,
    paused: false,
    held: [],
    faults: [],
    master: 'run',
    keeps: 0,
    wear: null,
    supplyMillivolts: null,
    resetCause: 'unknown',
    task: null,
    quiet: false,
    firmware: { match: 'unknown', shipped: null },
    openingResets: null,
    silicon: null,
    copiedAt: null,
    check: null,
    checking: false,
    wiringFaults: null,
    arms: [],
    keptCrc: null,
    needsSending: false,
  };
}
