/** The lamp check from the panel's side: what is asked, what is lit, what was answered, where it is kept. */
import { batch, computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Load } from '../../shared/electrics/model.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import {
  type Answer,
  answer,
  beginCheck,
  type Check,
  goTo,
  isDone,
  recordOf,
  resumeCheck,
  stepAt,
  takeBack,
} from '../../shared/lampcheck/check.ts';
import { countText, withRecord } from '../../shared/lampcheck/document.ts';
import { lampText } from '../../shared/lampcheck/lamps.ts';
import { type Flash, isProven, shortFlash } from '../../shared/lampcheck/lit-time.ts';
import { mergeRecords } from '../../shared/lampcheck/record.ts';
import { replan } from '../../shared/lampcheck/replan.ts';
import { permute } from '../../shared/layout/wiring/permute.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { CheckKnown } from './check-known.ts';
import { CheckLight, type Timers } from './check-light.ts';
import {
  type CheckParts,
  type Phase,
  RESTING,
  scopeFrom,
  scopeText,
  WINDOW_TIMERS,
  type Wishes,
} from './check-parts.ts';
import { answeredText } from './check-words.ts';
import { SelfCheck } from './self-check.ts';

export class CheckModel extends CheckKnown {
  readonly check = signal<Check | null>(null);
  readonly phase = signal<Phase>('begin');
  /** The answer that waits for somebody to point: `wrong` or `two`. */
  readonly pointingFor = signal<'wrong' | 'two'>('wrong');
  /** Board of the check, or of the one that was finished last. */
  readonly board = signal<string | null>(null);
  readonly selfCheck: SelfCheck;
  /** Why the plan could not be put right; empty in good health. */
  readonly refusals = signal<readonly Finding[]>([]);
  readonly step: ReadonlySignal<Load | null>;
  readonly timers: Timers;
  readonly #parts: CheckParts;
  readonly #light: CheckLight;
  readonly #now: () => string;
  #others: 'dark' | 'safe' = 'dark';

  constructor(parts: CheckParts) {
    super(parts);
    this.#parts = parts;
    this.#now = parts.now ?? (() => new Date().toISOString());
    this.timers = parts.timers ?? WINDOW_TIMERS;
    this.step = computed(() => (this.check.value ? stepAt(this.check.value) : null));
    this.#light = new CheckLight(async (lamp, forMs) => {
      const board = this.board.peek();
      return board !== null && (await parts.ask('light', { board, lamp, forMs })).ok;
    }, this.timers);
    this.selfCheck = new SelfCheck(parts.ask, (board) => this.loads(board));
    effect(() => this.#watch());
  }

  isProven(load: Load): boolean {
    const check = this.check.value;
    if (!check) return false;
    return isProven(check.loads, load, recordOf(check), this.selfCheck.safe(check.board));
  }

  /** A short: it must not be lit before it is mended. */
  isKeptDark(load: Load): boolean {
    const board = this.board.value;
    return board !== null && this.selfCheck.verdict(board, load)?.kind === 'short';
  }

  async begin(wishes: Wishes): Promise<boolean> {
    const { board, scope } = wishes;
    const by = this.#parts.checker.peek().trim();
    const now = this.#now();
    const begun = beginCheck(this.loads(board), scope, {
      board,
      ...(by === '' ? {} : { by }),
      now,
      before: this.record(board),
    });
    if (begun.steps.length === 0) return false;
    this.#parts.scopeKept.value = scopeText(now, scope);
    return this.#enter(begun, wishes.others);
  }

  async resume(board: string, others: 'dark' | 'safe'): Promise<boolean> {
    const left = this.unfinished(board);
    if (!left) return false;
    const by = this.#parts.checker.peek().trim();
    const merged = mergeRecords(left, this.record(board)) ?? left;
    const check = resumeCheck(
      this.loads(board),
      scopeFrom(this.#parts.scopeKept.peek(), left),
      merged,
      by === '' ? undefined : by,
    );
    return this.#enter(check, others);
  }

  /** After the board let go of the lamps: the same check, where it was. */
  async goOn(): Promise<boolean> {
    const check = this.check.peek();
    if (!check) return false;
    const { board } = check;
    this.phase.value = 'begin';
    return this.unfinished(board) ? this.resume(board, this.#others) : this.#enter(check, this.#others);
  }

  async #enter(check: Check, others: 'dark' | 'safe'): Promise<boolean> {
    const begun = await this.#parts.ask('beginCheck', { board: check.board, others });
    if (!begun.ok) return false;
    this.#others = others;
    batch(() => {
      this.board.value = check.board;
      this.check.value = check;
      this.phase.value = 'asking';
    });
    await this.#goTo(check);
    return true;
  }

  /** Answers the lamp at hand. Where another one lit, `saw` says which; without it somebody points first. */
  async answer(given: Answer): Promise<void> {
    const [check, load] = [this.check.peek(), this.step.peek()];
    if (!check || !load) return;
    if ((given.result === 'wrong' || given.result === 'two') && given.saw === undefined) {
      this.pointingFor.value = given.result;
      this.phase.value = 'pointing';
      return;
    }
    const next = answer(check, given, this.#now());
    this.phase.value = 'asking';
    const what = answeredText(load, next.answers.get(load.lamp)?.result ?? given.result, given.saw ?? []);
    await this.#take(next, what);
  }

  /** Several at once, as after a walk: all of these were right. */
  async allRight(lamps: readonly Load[]): Promise<void> {
    let check = this.check.peek();
    if (!check) return;
    for (const { lamp } of lamps) {
      const at = check.steps.findIndex((step) => step.lamp === lamp);
      if (at >= 0) check = answer(goTo(check, at), { result: 'right' }, this.#now());
    }
    this.phase.value = 'asking';
    const name = this.#parts.open.peek().boards.find(({ id }) => id === check?.board)?.name ?? check.board;
    await this.#take(check, `Checked ${lamps.length} lamps of ${name} in a walk: right.`);
  }

  async takeBack(): Promise<void> {
    const check = this.check.peek();
    if (!check || check.past.length === 0) return;
    const before = takeBack(check);
    const load = stepAt(before);
    await this.#take(before, `Took the answer for ${load ? lampText(load) : 'a lamp'} back.`);
  }

  /** Asks for a lamp of this check, answered or not. */
  async ask(index: number): Promise<void> {
    const check = this.check.peek();
    if (!check) return;
    const there = goTo(check, index);
    this.check.value = there;
    await this.#goTo(there);
  }

  async #take(check: Check, said: string): Promise<void> {
    this.check.value = check;
    if (isDone(check)) {
      await this.#finish(check, said);
      return;
    }
    const record = recordOf(check);
    const noted = this.#parts.ask('noteCheck', { board: check.board, record, said });
    await this.#goTo(check);
    await noted;
  }

  async #finish(check: Check, said: string): Promise<void> {
    const { board } = check;
    const { open, ask, change } = this.#parts;
    const record = recordOf(check, this.#now());
    await ask('noteCheck', { board, record, said });
    const name = open.peek().boards.find(({ id }) => id === board)?.name ?? board;
    const counts = countText(check.steps.flatMap(({ lamp }) => check.answers.get(lamp) ?? []));
    const finished = `Finished the lamp check of ${name}: ${counts}.`;
    await ask('noteCheck', { board, record, said: finished });
    await this.#release(board, 'ending');
    const { layout } = open.peek();
    if (layout)
      await change(writeLayout(withRecord(layout, record)), `Wrote the lamp check of ${name} into the layout.`);
    batch(() => {
      this.check.value = null;
      // Somebody may have closed the sheet meanwhile.
      if (this.phase.peek() === 'ending') this.phase.value = 'summary';
    });
  }

  /** Lets the sites show again; what was answered is kept, and can be gone on with. */
  async leave(): Promise<void> {
    const board = this.board.peek();
    const isOn = this.check.peek() !== null;
    batch(() => {
      this.check.value = null;
      this.phase.value = 'begin';
    });
    if (isOn && board !== null) await this.#release(board, 'begin');
  }

  async #release(board: string, next: Phase): Promise<void> {
    this.#light.stop();
    this.phase.value = next;
    if (this.#parts.board(board).state.peek().checking) await this.#parts.ask('endCheck', { board });
  }

  /** Puts exchanged wires right in the plan, as one step that can be undone. False when nothing could be done. */
  async replan(board: string): Promise<boolean> {
    const { layout } = this.#parts.open.peek();
    const outputs = replan(this.diagnosis(board));
    if (!layout || outputs.size === 0) return false;
    const done = permute(layout, board, outputs);
    this.refusals.value = 'findings' in done ? done.findings : [];
    return 'layout' in done && this.#parts.change(writeLayout(done.layout), done.said);
  }

  async darken(): Promise<void> {
    await this.#light.dark();
  }

  /** The walk ends at a lamp, which waits for its answer. */
  async endWalk(): Promise<void> {
    const load = this.step.peek();
    this.phase.value = 'asking';
    if (load) await this.show(load, null);
  }

  /** Lights the lamp at hand as it may be lit; `flashes`: instead of steadily. */
  async show(load: Load, flashes: readonly Flash[] | null): Promise<void> {
    // What was measured to be a short is not lit at all.
    if (this.isKeptDark(load)) await this.#light.dark();
    else await this.#light.show(load.lamp, this.isProven(load) ? flashes : [shortFlash(load)]);
  }

  async #goTo(check: Check): Promise<void> {
    const load = stepAt(check);
    if (load && this.phase.peek() !== 'walking') await this.show(load, null);
  }

  /** The board let go of the lamps by itself, as after a reset or a pulled cable. */
  #watch(): void {
    const check = this.check.value;
    if (!check) return;
    const state = this.#parts.board(check.board).state.value;
    const isAway = state.link !== 'ready' || !state.checking;
    if (!isAway || RESTING.includes(this.phase.peek())) return;
    this.#light.stop();
    this.phase.value = 'broken';
  }
}
