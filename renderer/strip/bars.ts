/** The cycle of a site as bars along its time: what each head shows, interval by interval. */

import type { LampState } from '../../shared/table/model.ts';
import { isInterval } from '../../shared/table/rows.ts';
import type { OpenSite } from '../model/document.ts';
import { flashPeriod, leastTime } from '../model/running.ts';

/** Times in ms from the start of the cycle. */
export interface Bar {
  readonly from: number;
  readonly to: number;
  /** Colours that are lit, in the order of the head, joined by `+`; empty for dark. */
  readonly shows: string;
  readonly flashes: boolean;
}

export interface Lane {
  readonly label: string;
  readonly bars: readonly Bar[];
}

export interface StripRow {
  readonly row: number;
  readonly from: number;
  readonly to: number;
  /** May last longer than drawn: it ends when something else happens. */
  readonly open: boolean;
}

export interface Strip {
  readonly lanes: readonly Lane[];
  readonly rows: readonly StripRow[];
  /** Length of what is drawn, ms. */
  readonly total: number;
  /** The whole is one flash after the other, not a cycle of intervals. */
  readonly isFlash: boolean;
}

/** `dials` are the site's times, ms: running ones, or planned where nothing runs. */
export function stripOf(site: OpenSite, dials: readonly number[]): Strip {
  const only = site.program.rows.length === 1 ? site.program.rows[0] : undefined;
  if (only && isInterval(only) && flashPeriod(site, only, dials) !== null) return flashStrip(site, dials, only.states);
  let at = 0;
  const intervals = site.program.rows.flatMap((row, number) => {
    if (!isInterval(row)) return [];
    const from = at;
    at += leastTime(row, dials);
    return [{ row: number, from, to: at, open: row.op !== 'after', states: row.states }];
  });
  const lanes = lanesOf(site).map(({ label, lamps }) => ({
    label,
    bars: merge(intervals.filter((it) => it.to > it.from).map((it) => bar(it.from, it.to, lamps, it.states))),
  }));
  const rows = intervals.map(({ row, from, to, open }) => ({ row, from, to, open }));
  return { lanes, rows, total: Math.max(1, at), isFlash: false };
}

interface LaneLamp {
  /** Number within the program. */
  readonly at: number;
  readonly colour: string;
}

/** Lamps of one head or phase share a lane. */
function lanesOf(site: OpenSite): { label: string; lamps: LaneLamp[] }[] {
  const lanes = new Map<string, LaneLamp[]>();
  site.names.lamps.forEach(({ label, colour }, at) => {
    lanes.set(label, [...(lanes.get(label) ?? []), { at, colour }]);
  });
  return [...lanes].map(([label, lamps]) => ({ label, lamps }));
}

function bar(from: number, to: number, lamps: readonly LaneLamp[], states: readonly LampState[]): Bar {
  const lit = lamps.filter(({ at }) => (states[at] ?? 'dark') !== 'dark');
  const flashes = lit.some(({ at }) => states[at] !== 'lit');
  return { from, to, shows: lit.map(({ colour }) => colour).join('+'), flashes };
}

function merge(bars: readonly Bar[]): Bar[] {
  const merged: Bar[] = [];
  for (const next of bars) {
    const last = merged.at(-1);
    if (last?.shows === next.shows && last.flashes === next.flashes)
      merged[merged.length - 1] = { ...last, to: next.to };
    else merged.push(next);
  }
  return merged;
}

/** Two flashes of a site that does nothing else. */
function flashStrip(site: OpenSite, dials: readonly number[], states: readonly LampState[]): Strip {
  const { flash } = site.program;
  const on = flash ? (dials[flash.on] ?? 500) : 500;
  const off = flash ? (dials[flash.off] ?? 500) : 500;
  const period = on + off;
  const lanes = lanesOf(site).map(({ label, lamps }) => {
    const bars = [0, period].flatMap((start) => [
      flashPart(start, start + on, lamps, states, 'flash'),
      flashPart(start + on, start + period, lamps, states, 'alternate'),
    ]);
    return { label, bars: merge(bars) };
  });
  return { lanes, rows: [], total: 2 * period, isFlash: true };
}

function flashPart(
  from: number,
  to: number,
  lamps: readonly LaneLamp[],
  states: readonly LampState[],
  lit: LampState,
): Bar {
  const shown = lamps.map(
    (lamp) => (states[lamp.at] === lit || states[lamp.at] === 'lit' ? 'lit' : 'dark') as LampState,
  );
  return bar(
    from,
    to,
    lamps.map(({ colour }, at) => ({ at, colour })),
    shown,
  );
}

/** Where the cursor stands, ms from the left; null when the row is not drawn. */
export function cursorAt(strip: Strip, row: number, elapsed: number): number | null {
  const found = strip.rows.find((it) => it.row === row);
  return found ? Math.min(found.from + Math.max(0, elapsed), found.to) : null;
}
