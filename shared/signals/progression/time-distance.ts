/** What a time-distance chart shows, as plain data: seconds one way, metres the other. */
import type { Bands } from './bands.ts';
import { type Direction, type Green, ms, onRing, type Street, travelTimes } from './street.ts';

export interface Point {
  /** s */
  readonly time: number;
  /** Metres from the first junction. */
  readonly distance: number;
}

export interface Span {
  /** s */
  readonly from: number;
  readonly to: number;
}

export interface ChartStop {
  readonly id: string;
  readonly name: string;
  readonly distance: number;
  /** s into the cycle of its own zero. */
  readonly offset: number;
  /** Greens within the chart, in order. */
  readonly greens: Readonly<Record<Direction, readonly Span[]>>;
}

export interface ChartBand {
  readonly direction: Direction;
  /** s */
  readonly width: number;
  /**
   * A parallelogram: first vehicle at the begin and end of its way, then the
   * last vehicle at the end and begin. May reach beyond the chart, which cuts it.
   */
  readonly corners: readonly [Point, Point, Point, Point];
}

export interface TimeDistance {
  readonly name: string;
  /** s */
  readonly cycle: number;
  /** The chart shows 0 to this, s. */
  readonly span: number;
  /** Metres from the first junction to the last. */
  readonly length: number;
  readonly stops: readonly ChartStop[];
  /** All that the chart shows some of, by direction and time; none where a band has no width. */
  readonly bands: readonly ChartBand[];
}

/** `cycles`: how many the chart shows, 2 unless told otherwise. */
export function timeDistance(
  street: Street,
  { offsets, ...bands }: Bands & { readonly offsets: readonly number[] },
  cycles = 2,
): TimeDistance {
  const span = street.cycle * cycles;
  const zero = street.stops[0]?.distance ?? 0;
  return {
    name: street.name,
    cycle: street.cycle,
    span,
    length: (street.stops.at(-1)?.distance ?? 0) - zero,
    stops: street.stops.map(({ id, name, distance, out, back }, index) => {
      const offset = offsets[index] ?? 0;
      const greens = {
        out: repeated(out, offset, street.cycle, span),
        back: repeated(back, offset, street.cycle, span),
      };
      return { id, name, distance: distance - zero, offset, greens };
    }),
    bands: [...bandsIn(street, bands, 'out', span), ...bandsIn(street, bands, 'back', span)],
  };
}

/** A green in every cycle, cut to the chart. */
function repeated({ start, length }: Green, offset: number, cycle: number, span: number): Span[] {
  const spans: Span[] = [];
  const first = onRing(ms(offset) + ms(start), ms(cycle)) - ms(cycle);
  for (let from = first; from < ms(span); from += ms(cycle)) {
    const [begin, end] = [Math.max(0, from), Math.min(ms(span), from + ms(length))];
    if (begin < end) spans.push({ from: begin / 1000, to: end / 1000 });
  }
  return spans;
}

function bandsIn(street: Street, bands: Bands, direction: Direction, span: number): ChartBand[] {
  const { start, width } = bands[direction];
  if (width === 0) return [];
  const travel = Math.max(...travelTimes(street, direction));
  const length = (street.stops.at(-1)?.distance ?? 0) - (street.stops[0]?.distance ?? 0);
  const [begin, end] = direction === 'out' ? [0, length] : [length, 0];
  const cycle = ms(street.cycle);
  // The first that has not left the chart before it begins.
  const before = Math.ceil((travel + ms(width)) / cycle) + 1;
  const all: ChartBand[] = [];
  for (let from = ms(start) - before * cycle; from < ms(span); from += cycle) {
    if (from + travel + ms(width) <= 0) continue;
    const point = (time: number, distance: number): Point => ({ time: time / 1000, distance });
    const last = from + ms(width);
    const corners = [
      point(from, begin),
      point(from + travel, end),
      point(last + travel, end),
      point(last, begin),
    ] as const;
    all.push({ direction, width, corners });
  }
  return all;
}
