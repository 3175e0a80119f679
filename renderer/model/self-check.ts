/** What the board measures of its own pins before anything is lit. */
import { batch, signal } from '@preact/signals';
import type { Load } from '../../shared/electrics/model.ts';
import { inCheckOrder } from '../../shared/lampcheck/lamps.ts';
import { judge } from '../../shared/lampcheck/self-check/judge.ts';
import { whyNotProbed } from '../../shared/lampcheck/self-check/probed.ts';
import { cantTell, type Verdict } from '../../shared/lampcheck/self-check/verdict.ts';
import type { Problem } from '../../shared/workbench/contract.ts';
import type { Model } from './model.ts';

interface Measured {
  /** Place of the lamp in the document: what was measured holds for it at this output only. */
  readonly path: string;
  readonly output: number;
  readonly verdict: Verdict;
}

type ByOutput = ReadonlyMap<number, Measured>;

export class SelfCheck {
  /** By board, then by output. */
  readonly found = signal<ReadonlyMap<string, ByOutput>>(new Map());
  /** Pins measured so far; null while nothing is measured. */
  readonly progress = signal<{ readonly board: string; readonly done: number; readonly total: number } | null>(null);
  /** Why the last measuring came to nothing; ending it puts what the panel shows of it away. */
  readonly problem = signal<Problem | null>(null);
  readonly #ask: Model['ask'];
  readonly #loads: (board: string) => readonly Load[];

  constructor(ask: Model['ask'], loads: (board: string) => readonly Load[]) {
    this.#ask = ask;
    this.#loads = loads;
  }

  verdict(board: string, { output, path }: Load): Verdict | null {
    const measured = this.found.value.get(board)?.get(output);
    return measured?.path === path ? measured.verdict : null;
  }

  /** Outputs on which no short is possible. */
  safe(board: string): ReadonlySet<number> {
    const all = [...(this.found.value.get(board)?.values() ?? [])];
    return new Set(all.filter(({ verdict }) => verdict.mayStayLit).map(({ output }) => output));
  }

  /** All pins of a board, one after the other, with all lamps dark. False when it could not be done. */
  async run(board: string): Promise<boolean> {
    if (this.progress.peek()) return false;
    const loads = inCheckOrder(this.#loads(board));
    this.progress.value = { board, done: 0, total: loads.length };
    this.problem.value = null;
    const begun = await this.#ask('beginCheck', { board, others: 'dark' });
    const found = begun.ok ? await this.#measure(board, loads) : null;
    if (begun.ok) await this.#ask('endCheck', { board });
    batch(() => {
      this.progress.value = null;
      if (found) this.found.value = new Map(this.found.peek()).set(board, found);
    });
    return found !== null;
  }

  /** Null when the board did not answer. */
  async #measure(board: string, loads: readonly Load[]): Promise<ByOutput | null> {
    const found = new Map<number, Measured>();
    for (const [done, load] of loads.entries()) {
      const { output, path, activeLow } = load;
      const why = whyNotProbed(load);
      const reading = why === null ? await this.#ask('probe', { board, pin: output, activeLow }) : null;
      if (reading && !reading.ok) {
        this.problem.value = reading.problem;
        return null;
      }
      found.set(output, { path, output, verdict: reading ? judge(load, reading.value, loads) : cantTell(why ?? '') });
      this.progress.value = { board, done: done + 1, total: loads.length };
    }
    return found;
  }
}
