/** What is known of a board's lamps: what hangs on it, what the checks of them found, and what that comes to. */
import type { ReadonlySignal } from '@preact/signals';
import { isWire, loadsOf } from '../../shared/electrics/loads.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { type Diagnosis, diagnose } from '../../shared/lampcheck/diagnose.ts';
import { answersNow, recordIn } from '../../shared/lampcheck/document.ts';
import { mergeRecords } from '../../shared/lampcheck/record.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import type { BoardModel } from './board.ts';
import type { OpenLayout } from './document.ts';

interface Parts {
  readonly open: ReadonlySignal<OpenLayout>;
  readonly board: (id: string) => BoardModel;
}

export class CheckKnown {
  readonly #parts: Parts;
  /** A board that is compiled anew is another object. */
  readonly #loads = new WeakMap<CompiledBoard, readonly Load[]>();

  constructor(parts: Parts) {
    this.#parts = parts;
  }

  /** Everything with a lamp on it; wires to other boards are none of the check's. */
  loads(board: string): readonly Load[] {
    const { layout, boards } = this.#parts.open.value;
    const compiled = boards.find(({ id }) => id === board);
    if (!layout || !compiled) return [];
    const loads = this.#loads.get(compiled) ?? loadsOf(layout, compiled).filter((load) => !isWire(load));
    this.#loads.set(compiled, loads);
    return loads;
  }

  /** What is known of the board's lamps, from this computer and from the layout file. */
  record(board: string): CheckRecord | null {
    const { layout } = this.#parts.open.value;
    const kept = this.#parts.board(board).state.value.check;
    return mergeRecords(kept, layout && recordIn(layout, board));
  }

  /** A check that was left before its end. */
  unfinished(board: string): CheckRecord | null {
    const kept = this.#parts.board(board).state.value.check;
    return kept && kept.ended === undefined ? kept : null;
  }

  diagnosis(board: string): Diagnosis {
    const loads = this.loads(board);
    return diagnose(loads, answersNow(loads, this.record(board)));
  }
}
