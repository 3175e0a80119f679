/**
 * Where a time stands on the chart. Time runs evenly, but each row that may
 * wait has a gap of its own at its end, in which no planned time passes.
 */
import type { Cycle } from './cycle.ts';

export interface ChartRow {
  /** Number of the row in the program. */
  readonly row: number;
  /** ms from the start of the cycle. */
  readonly from: number;
  readonly to: number;
  /** px: where it begins, where its least time is over, where it ends. The last two differ by its gap. */
  readonly x: number;
  readonly xLeast: number;
  readonly xEnd: number;
  /** How much longer than drawn it may last, ms; null without an end. 0 where it has no gap. */
  readonly most: number | null;
}

export interface PhaseChartGeometry {
  /** px: from here to there time runs. */
  readonly left: number;
  readonly right: number;
  /** ms. */
  readonly total: number;
  readonly pixelsPerMs: number;
  readonly rows: readonly ChartRow[];
  /** At a moment at which a row ends that may wait: the near side of its gap. Clamped to the chart. */
  xOf(ms: number): number;
  /** The planned time at a place; all of a gap stands at one time. Clamped to the chart. */
  timeOf(x: number): number;
  /** Where the cursor stands in a row of the program that began `elapsed` ms ago; null when it is not drawn. */
  cursorX(row: number, elapsed: number): number | null;
}

/** Widest gap, px, and the most of the whole that all of them take. */
const GAP = 56;
const SHARE = 0.45;

export function chartGeometry(cycle: Cycle, left: number, right: number): PhaseChartGeometry {
  const width = right - left;
  const waiting = cycle.rows.filter((row) => row.wait !== null).length;
  const gap = cycle.total === 0 ? width / Math.max(1, waiting) : Math.min(GAP, (width * SHARE) / Math.max(1, waiting));
  const pixelsPerMs = cycle.total === 0 ? 0 : (width - waiting * gap) / cycle.total;
  let x = left;
  const rows = cycle.rows.map(({ row, from, to, wait }): ChartRow => {
    const begin = x;
    const least = begin + (to - from) * pixelsPerMs;
    x = least + (wait === null ? 0 : gap);
    return { row, from, to, x: begin, xLeast: least, xEnd: x, most: wait === null ? 0 : wait.most };
  });
  const xOf = (ms: number): number => {
    const found = rows.find((it) => ms <= it.to) ?? rows.at(-1);
    if (found === undefined) return left;
    return Math.min(Math.max(left, found.x + (ms - found.from) * pixelsPerMs), found.xLeast);
  };
  const timeOf = (at: number): number => {
    const found = rows.find((it) => at <= it.xEnd) ?? rows.at(-1);
    if (found === undefined || pixelsPerMs === 0) return found?.from ?? 0;
    return Math.min(Math.max(0, found.from + (at - found.x) / pixelsPerMs), found.to);
  };
  const cursorX = (row: number, elapsed: number): number | null => {
    const found = rows.find((it) => it.row === row);
    if (found === undefined) return null;
    // Flash after flash of one row.
    if (cycle.is === 'flash') return xOf(Math.max(0, elapsed) % Math.max(1, cycle.total));
    const planned = found.to - found.from;
    if (elapsed <= planned) return found.x + Math.max(0, elapsed) * pixelsPerMs;
    return found.xLeast + (found.xEnd - found.xLeast) * shareOfWait(elapsed - planned, found.most);
  };
  return { left, right, total: cycle.total, pixelsPerMs, rows, xOf, timeOf, cursorX };
}

/** A wait without an end is half over after ten seconds and never quite over. */
function shareOfWait(over: number, most: number | null): number {
  if (most === null) return over / (over + 10_000);
  return most === 0 ? 1 : Math.min(1, over / most);
}
