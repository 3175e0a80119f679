/** The record of a check in the layout document, beside the wires that it speaks of. */
import type { Load } from '../electrics/model.ts';
import type { CheckedLamp, CheckRecord } from '../layout/check-record.ts';
import type { Layout } from '../layout/schema.ts';
import { answerFor, mergeRecords } from './record.ts';

export function recordIn(layout: Layout, board: string): CheckRecord | null {
  return layout.checks?.find((record) => record.board === board) ?? null;
}

/** The layout with this record in it; what it has of the same board already is kept where that is newer. */
export function withRecord(layout: Layout, record: CheckRecord): Layout {
  const others = (layout.checks ?? []).filter(({ board }) => board !== record.board);
  const merged = mergeRecords(recordIn(layout, record.board), record) ?? record;
  return { ...layout, checks: [...others, merged] };
}

/** Answers that still count: those given for the output that the lamp has now. By number of the lamp. */
export function answersNow(loads: readonly Load[], record: CheckRecord | null): Map<number, CheckedLamp> {
  return new Map(
    loads.flatMap((load) => {
      const answer = answerFor(loads, load, record);
      return answer?.output === load.outputName ? [[load.lamp, answer] as const] : [];
    }),
  );
}

const RESULTS = [
  ['right', 'right'],
  ['dark', 'dark'],
  ['wrong', 'wrong'],
  ['dim', 'dim'],
  ['two', 'lit with another'],
] as const;

/** "38 right, 1 dark, 2 wrong"; "nothing yet" without an answer. */
export function countText(answers: Iterable<CheckedLamp>): string {
  const all = [...answers];
  const parts = RESULTS.flatMap(([result, word]) => {
    const count = all.filter((answer) => answer.result === result).length;
    return count > 0 ? [`${count} ${word}`] : [];
  });
  return parts.join(', ') || 'nothing yet';
}
