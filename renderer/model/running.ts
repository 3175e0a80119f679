/** What a site does now, in the words and figures that are shown. */
import type { Interval } from '../../shared/table/model.ts';
import { isInterval } from '../../shared/table/rows.ts';
import type { BoardModel } from './board.ts';
import type { OpenSite } from './document.ts';

export type Running =
  /** Nothing is known: no board, or it runs something else. */
  | { readonly is: 'unknown' }
  | { readonly is: 'fault'; readonly label: string }
  /** Ends by itself in `left` ms. */
  | {
      readonly is: 'timed';
      readonly row: number;
      readonly label: string;
      readonly left: number;
      readonly elapsed: number;
    }
  /** Ends when something else happens; it cannot end before `left` ms. */
  | {
      readonly is: 'open';
      readonly row: number;
      readonly label: string;
      readonly left: number;
      readonly elapsed: number;
    }
  /** Never ends; its lamps flash so often a minute. */
  | { readonly is: 'flashing'; readonly row: number; readonly label: string; readonly perMinute: number };

/** FAULT numbers of firmware/PROTOCOL.md, chapter 1. */
const FAULTS: Readonly<Record<number, string>> = {
  1: 'Fault: conflicting lamps',
  2: 'Fault: no interval reached',
  3: 'Fault: table damaged',
  4: 'Fault: state damaged',
};

export function runningOf(site: OpenSite, board: BoardModel, wall: number): Running {
  const state = board.state.value;
  const now = board.rows.value[site.number];
  const elapsed = board.elapsed(site.number, wall);
  if (!board.runsLayout.value || !now || elapsed === null) return { is: 'unknown' };
  const fault = state.faults[site.number] ?? 0;
  if (fault !== 0) return { is: 'fault', label: FAULTS[fault] ?? `Fault ${fault}` };
  const row = site.program.rows[now.row];
  if (!row || !isInterval(row)) return { is: 'unknown' };
  const label = site.names.rows[now.row]?.label ?? `Interval ${now.row + 1}`;
  const dials = state.runningDials?.[site.number] ?? site.binding.dials;
  const flash = flashPeriod(site, row, dials);
  if (flash !== null) return { is: 'flashing', row: now.row, label, perMinute: 60_000 / flash };
  const least = leastTime(row, dials);
  return {
    is: row.op === 'after' ? 'timed' : 'open',
    row: now.row,
    label,
    // Before a delayed start the elapsed time is negative and adds to what is left.
    left: Math.max(0, least - elapsed),
    elapsed: Math.max(0, elapsed),
  };
}

/** Least time of an interval, ms: all of it for `after`. */
export function leastTime(row: Interval, dials: readonly number[]): number {
  const dial = row.op === 'after' ? row.dial : row.op === 'random' ? row.low : row.min;
  return dials[dial] ?? 0;
}

/** Lit and dark time together, ms, of a row that does nothing but flash for ever; null for others. */
export function flashPeriod(site: OpenSite, row: Interval, dials: readonly number[]): number | null {
  const isEndless = row.op === 'until' && row.when.kind === 'active' && row.when.inputs.length === 0;
  const flashes = row.states.some((state) => state === 'flash' || state === 'alternate');
  if (!isEndless || !flashes) return null;
  const { flash } = site.program;
  return flash ? (dials[flash.on] ?? 0) + (dials[flash.off] ?? 0) : 1000;
}
