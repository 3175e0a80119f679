/** What a board measures of its own supply, as long as somebody looks at it. */
import { signal } from '@preact/signals';
import type { CallArgs, CallResults, Outcome, Problem, SupplyReading } from '../../shared/workbench/contract.ts';

type Ask = (name: 'supply', args: CallArgs<'supply'>) => Promise<Outcome<CallResults['supply']>>;

/** A fall of this share is worth a word, as in the log; common practice, no source. */
const SAG = 0.08;
/** What a meter may show on a 5 V line, mV; the board refuses others. */
const METER = { least: 3000, most: 5500 };

export class SupplyWatch {
  readonly reading = signal<SupplyReading | null>(null);
  /** Greatest and least since the watch began, mV. */
  readonly span = signal<{ readonly least: number; readonly most: number } | null>(null);
  readonly problem = signal<Problem | null>(null);
  readonly #ask: Ask;
  readonly #board: string;
  /** The question that waits for its answer. */
  #asked: ReturnType<Ask> | null = null;

  constructor(board: string, ask: Ask) {
    this.#board = board;
    this.#ask = ask;
  }

  /** `meterMillivolts`: what a meter shows at this moment; the board remembers it as its measure. True when it answered. */
  async read(meterMillivolts?: number): Promise<boolean> {
    // A question that is on its way is as good as another one; a calibration waits for it.
    if (this.#asked && meterMillivolts === undefined) return false;
    if (this.#asked) await this.#asked;
    const args = { board: this.#board, ...(meterMillivolts === undefined ? {} : { meterMillivolts }) };
    this.#asked = this.#ask('supply', args);
    const outcome = await this.#asked;
    this.#asked = null;
    if (!outcome.ok) {
      this.problem.value = outcome.problem;
      return false;
    }
    const { millivolts, least } = outcome.value;
    const before = meterMillivolts === undefined ? this.span.peek() : null;
    this.problem.value = null;
    this.reading.value = outcome.value;
    // The first answer's least is from before somebody looked, and after a calibration the scale is another one.
    const low = before === null ? millivolts : Math.min(before.least, least);
    this.span.value = { least: low, most: Math.max(before?.most ?? 0, millivolts) };
    return true;
  }

  /** How far it fell, as a share; null while that is too little to speak of. True of any board: no calibration is needed. */
  get sag(): number | null {
    const span = this.span.value;
    if (span === null || span.most === 0) return null;
    const share = (span.most - span.least) / span.most;
    return share > SAG ? share : null;
  }
}

/** Volts as a meter shows them, as mV; null for what no meter would show on a 5 V line. */
export function readMeter(text: string): number | null {
  const match = /^\s*(\d)(?:[.,](\d{1,3}))?\s*V?\s*$/i.exec(text);
  if (match === null) return null;
  const millivolts = Number(match[1]) * 1000 + Number((match[2] ?? '').padEnd(3, '0'));
  return millivolts >= METER.least && millivolts <= METER.most ? millivolts : null;
}

export function voltsText(millivolts: number): string {
  return `${(millivolts / 1000).toFixed(2)} V`;
}
