/** Which part of a junction's cycle is a stage, which the change between two, and the intergreens in them. */
import type { Junction } from '../../layout/sites.ts';
import type { Program } from '../../table/model.ts';
import type { Cycle } from './cycle.ts';
import type { Bar, Lane } from './lanes.ts';

/** A span of the cycle's rows, first and last as places in `Cycle.rows`. */
export interface StageSpan {
  readonly is: 'stage' | 'interstage';
  /** Index of the stage in the document; of a change, the one it leads to. */
  readonly stage: number;
  readonly first: number;
  readonly last: number;
}

/**
 * A row is a stage where just its phases are green and all others are red or
 * dark; what lies between is a change. Empty where no row is a stage.
 */
export function stageSpans(site: Junction, lanes: readonly Lane[], cycle: Cycle): StageSpan[] {
  const shown = lanes.filter((lane) => lane.lamps.length > 0);
  const weightAt = (lane: Lane, at: number) => lane.bars.find((bar) => bar.first <= at && at <= bar.last)?.weight;
  const stageAt = cycle.rows.map((_, at) =>
    site.stages.findIndex((stage) =>
      shown.every((lane) => {
        const weight = weightAt(lane, at);
        return stage.phases.includes(lane.phase ?? '') ? weight === 'go' : weight === 'stop' || weight === 'dark';
      }),
    ),
  );
  if (stageAt.every((stage) => stage < 0)) return [];
  // With a single stage, or none with lamps, every row would be one.
  const next = (at: number): number => {
    for (let step = 1; step <= stageAt.length; step++) {
      const stage = stageAt[(at + step) % stageAt.length] ?? -1;
      if (stage >= 0) return stage;
    }
    return -1;
  };
  const spans: StageSpan[] = [];
  stageAt.forEach((stage, at) => {
    const is = stage >= 0 ? 'stage' : 'interstage';
    const which = stage >= 0 ? stage : next(at);
    const last = spans.at(-1);
    if (last && last.is === is && last.stage === which) spans[spans.length - 1] = { ...last, last: at };
    else spans.push({ is, stage: which, first: at, last: at });
  });
  return spans;
}

export interface Intergreen {
  /** Ids of phases that lose right of way and of those that gain it. */
  readonly from: readonly string[];
  readonly to: readonly string[];
  /** Places in `Cycle.rows`: the first row after the green, and the first row of the next green. */
  readonly begin: number;
  readonly end: number;
  /** ms. */
  readonly ms: number;
}

/** From the end of each green to the start of the next one of a conflicting phase; equal spans are one. */
export function intergreens(program: Program, lanes: readonly Lane[], cycle: Cycle): Intergreen[] {
  const found = new Map<string, { from: Set<string>; to: Set<string>; begin: number; end: number }>();
  const count = cycle.rows.length;
  for (const lane of lanes) {
    for (const bar of lane.bars.filter((it) => it.weight === 'go')) {
      const begin = (bar.last + 1) % count;
      if (isGreenAt(lane, begin)) continue;
      for (const other of lanes) {
        if (other === lane || !conflict(program, lane, other)) continue;
        const gain = nextGreen(other, begin, count);
        if (gain === null || greenBetween(lanes, program, { lane, other }, begin, gain, count)) continue;
        const key = `${begin} ${gain}`;
        const span = found.get(key) ?? { from: new Set(), to: new Set(), begin, end: gain };
        span.from.add(lane.phase ?? lane.name);
        span.to.add(other.phase ?? other.name);
        found.set(key, span);
      }
    }
  }
  return [...found.values()]
    .map(({ from, to, begin, end }) => ({ from: [...from], to: [...to], begin, end, ms: between(cycle, begin, end) }))
    .sort((a, b) => a.begin - b.begin || a.ms - b.ms);
}

/** The board watches pairs of green lamps; a pair of theirs is a pair of phases. */
function conflict(program: Program, one: Lane, other: Lane): boolean {
  return program.conflicts.some(
    ([a, b]) =>
      (one.lamps.includes(a) && other.lamps.includes(b)) || (one.lamps.includes(b) && other.lamps.includes(a)),
  );
}

function isGreenAt(lane: Lane, at: number): boolean {
  return lane.bars.some((bar: Bar) => bar.weight === 'go' && bar.first <= at && at <= bar.last);
}

/** First row from `begin` on in which the lane becomes green; null when it is so already or never. */
function nextGreen(lane: Lane, begin: number, count: number): number | null {
  if (isGreenAt(lane, begin)) return null;
  for (let step = 1; step < count; step++) {
    const at = (begin + step) % count;
    if (isGreenAt(lane, at)) return at;
  }
  return null;
}

/** Whether a third phase that conflicts with the gaining one has a whole green in between: then its own intergreen counts. */
function greenBetween(
  lanes: readonly Lane[],
  program: Program,
  pair: { readonly lane: Lane; readonly other: Lane },
  begin: number,
  end: number,
  count: number,
): boolean {
  const length = (end - begin + count) % count;
  return lanes.some((third) => {
    if (third === pair.other || !conflict(program, third, pair.other)) return false;
    return Array.from({ length }, (_, step) => (begin + step) % count).some((at) => isGreenAt(third, at));
  });
}

function between(cycle: Cycle, begin: number, end: number): number {
  const at = (place: number): number => cycle.rows[place]?.from ?? 0;
  return begin < end ? at(end) - at(begin) : cycle.total - at(begin) + at(end);
}
