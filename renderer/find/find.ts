/** Finding forgotten wires: outputs are lit one after the other, and somebody says what they saw. */
import { batch, type Signal, signal } from '@preact/signals';
import type { Finding } from '../../shared/findings/finding.ts';
import { withRecord } from '../../shared/lampcheck/document.ts';
import { type FoundWire, latestOf, takeFound } from '../../shared/lampcheck/found.ts';
import { keyOf } from '../../shared/lampcheck/lamps.ts';
import { FLASH_EVERY_MS, FLASH_MS } from '../../shared/lampcheck/lit-time.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import { FIRST_BIT } from '../../shared/layout/wiring/numbers.ts';
import { lampOutputs } from '../../shared/layout/wiring/outputs.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { Timers } from '../model/check-light.ts';
import type { Model } from '../model/model.ts';

/** One lighting of one output. */
export interface Try {
  readonly output: number;
  readonly name: string;
  /** Number of the lamp that the plan has there; null where the output is free. */
  readonly lamp: number | null;
  /** Pulled high or low; null for a lamp of the plan, which is lit as the plan says. */
  readonly high: boolean | null;
}

type Phase = 'begin' | 'asking' | 'summary';

export class FindModel {
  readonly phase: Signal<Phase> = signal<Phase>('begin');
  readonly board: Signal<string>;
  readonly tries: Signal<readonly Try[]> = signal<readonly Try[]>([]);
  readonly at = signal(0);
  readonly found: Signal<readonly FoundWire[]> = signal<readonly FoundWire[]>([]);
  readonly findings: Signal<readonly Finding[]> = signal<readonly Finding[]>([]);
  readonly #model: Model;
  readonly #timers: Timers;
  readonly #now: () => string;
  #began = '';
  #turn = 0;
  #holds = false;

  constructor(model: Model, now = () => new Date().toISOString()) {
    this.#model = model;
    this.#timers = model.check.timers;
    this.#now = now;
    this.board = signal(model.boardAtHand.peek()?.id ?? '');
  }

  /** With `planned` also the outputs that the plan uses. */
  async begin(planned: boolean): Promise<void> {
    const board = this.board.peek();
    const tries = this.triesFor(board, planned);
    if (tries.length === 0) return;
    // Where the board runs this plan its other lamps go dark; an empty board has nothing to darken.
    if (this.#model.board(board).runsLayout.peek()) {
      if (!(await this.#model.ask('beginCheck', { board, others: 'dark' })).ok) return;
      this.#holds = true;
    }
    this.#began = this.#now();
    batch(() => {
      this.tries.value = tries;
      this.at.value = 0;
      this.found.value = [];
      this.findings.value = [];
      this.phase.value = 'asking';
    });
    this.#light();
  }

  triesFor(board: string, planned: boolean): Try[] {
    const { layout } = this.#model.open.value;
    if (!layout) return [];
    const lamps = new Map(this.#model.check.loads(board).map(({ output, lamp }) => [output, lamp]));
    return lampOutputs(layout, board).flatMap(({ output, name, use }): Try[] => {
      if (use.is === 'free') return [{ output, name, lamp: null, high: true }];
      const lamp = lamps.get(output);
      const canLight = planned && lamp !== undefined && this.#model.board(board).runsLayout.value;
      return canLight ? [{ output, name, lamp, high: null }] : [];
    });
  }

  get now(): Try | null {
    return this.tries.value[this.at.value] ?? null;
  }

  /** The lamp at this place of the document did light; null: one that the plan does not have, with a word about it. */
  point(path: string | null, note = ''): void {
    const { now } = this;
    if (!now) return;
    const activeLow = now.high === null ? null : !now.high;
    this.found.value = [...this.found.value, { output: now.output, path, activeLow, ...(note === '' ? {} : { note }) }];
    this.#next();
  }

  /** Nothing did light. A free pin is tried once more the other way: lamps with a common plus are lit by low. */
  nothing(): void {
    const { now } = this;
    if (!now) return;
    if (now.high === true && now.output < FIRST_BIT) {
      this.tries.value = this.tries.value.map((it, at) => (at === this.at.value ? { ...it, high: false } : it));
      this.#light();
    } else this.#next();
  }

  back(): void {
    if (this.at.value === 0) return;
    const at = this.at.value - 1;
    const before = this.tries.value[at];
    batch(() => {
      this.at.value = at;
      this.found.value = this.found.value.filter(({ output }) => output !== before?.output);
      this.tries.value = this.tries.value.map((it, index) =>
        index === at && it.lamp === null ? { ...it, high: true } : it,
      );
    });
    this.#light();
  }

  async finish(): Promise<void> {
    this.phase.value = 'summary';
    await this.#release();
  }

  async leave(): Promise<void> {
    this.phase.value = 'begin';
    await this.#release();
  }

  /** Writes what was seen into the plan, as one step that can be undone. */
  async take(): Promise<boolean> {
    const board = this.board.peek();
    const { layout } = this.#model.open.peek();
    if (!layout) return false;
    const done = takeFound(layout, board, this.found.peek());
    if (!('layout' in done)) {
      this.findings.value = done.findings;
      return false;
    }
    const record = this.#record(board);
    const next = record.lamps.length > 0 ? withRecord(done.layout, record) : done.layout;
    if (!(await this.#model.change(writeLayout(next), done.said))) return false;
    if (record.lamps.length > 0) await this.#model.ask('noteCheck', { board, record, said: done.said });
    this.phase.value = 'begin';
    return true;
  }

  /** Who saw a lamp light at an output has checked it. */
  #record(board: string): CheckRecord {
    const loads = this.#model.check.loads(board);
    const names = new Map(this.tries.peek().map(({ output, name }) => [output, name]));
    const now = this.#now();
    const by = this.#model.preferences.checker.peek().trim();
    const lamps = latestOf(this.found.peek()).flatMap(({ path, output }) => {
      const load = loads.find((it) => it.path === path);
      const name = names.get(output);
      if (!load || !name) return [];
      return [
        { ...keyOf(load), output: name, result: 'right' as const, at: now, note: 'Found by lighting the output.' },
      ];
    });
    return { board, ...(by === '' ? {} : { by }), began: this.#began, ended: now, lamps };
  }

  #next(): void {
    this.at.value += 1;
    if (this.now) this.#light();
    else void this.finish();
  }

  #light(): void {
    this.#turn += 1;
    void this.#flash(this.#turn);
  }

  /** Short flashes: nothing is known of what hangs there. */
  async #flash(turn: number): Promise<void> {
    const { now } = this;
    const board = this.board.peek();
    if (!now || turn !== this.#turn || this.phase.peek() !== 'asking') return;
    const done =
      now.lamp !== null
        ? await this.#model.ask('light', { board, lamp: now.lamp, forMs: FLASH_MS })
        : await this.#pulse(board, now);
    if (!done.ok || turn !== this.#turn) return;
    this.#timers.set(FLASH_EVERY_MS, () => void this.#flash(turn));
  }

  async #pulse(board: string, { output, high }: Try) {
    const done = await this.#model.ask('pulse', { board, output, high: high ?? true, forMs: FLASH_MS });
    // What the board runs uses this output, though the open plan does not: it is left alone.
    if (!done.ok && done.problem.code === 'outputNotFree') {
      this.#model.trouble.value = null;
      this.#next();
    }
    return done;
  }

  async #release(): Promise<void> {
    this.#turn += 1;
    if (!this.#holds) return;
    this.#holds = false;
    await this.#model.ask('endCheck', { board: this.board.peek() });
  }
}

const MODELS = new WeakMap<Model, FindModel>();

/** One for each panel: what was seen stays while its sheet is closed. */
export function findOf(model: Model): FindModel {
  const known = MODELS.get(model) ?? new FindModel(model);
  MODELS.set(model, known);
  return known;
}
