/**
 * Through bands of a row of junctions: the time in which vehicles pass all of
 * them on green. Their efficiency and what they carry as in NPTEL 105101008,
 * lecture 38.
 */
import { fact } from '../../practice/practice.ts';
import { type Direction, ms, onRing, type Street, travelTimes } from './street.ts';

/** Seconds between two vehicles of one lane. */
export const HEADWAY = fact(2, 'seen', 'NPTEL 105101008, lecture 38: 17 s carry 17 / 2.0 vehicles');
/** Share of the cycle that a good band has. */
export const GOOD_EFFICIENCY = fact([0.4, 0.5] as const, 'seen', 'NPTEL 105101008, lecture 38');

export interface Band {
  /** s into the cycle at which its first vehicle passes the first junction of its way. */
  readonly start: number;
  /** s; 0 when nobody gets through without a stop. */
  readonly width: number;
  /** Width / cycle. */
  readonly efficiency: number;
}

export interface Bands {
  readonly out: Band;
  readonly back: Band;
}

/** `offsets`: s at which each junction's own zero is in the cycle. */
export function bandsOf(street: Street, offsets: readonly number[]): Bands {
  return { out: bandOf(street, offsets, 'out'), back: bandOf(street, offsets, 'back') };
}

function bandOf(street: Street, offsets: readonly number[], direction: Direction): Band {
  const cycle = ms(street.cycle);
  const travel = travelTimes(street, direction);
  // Greens as seen from the first junction of the way.
  const greens = street.stops
    .map((stop, index) => ({
      start: onRing(ms(offsets[index] ?? 0) + ms(stop[direction].start) - (travel[index] ?? 0), cycle),
      length: ms(stop[direction].length),
    }))
    .filter(({ length }) => length < cycle);
  // The widest time in all greens begins with one of them.
  let best = { start: 0, width: greens.length === 0 ? cycle : 0 };
  for (const { start } of greens) {
    const width = Math.min(...greens.map((green) => green.length - onRing(start - green.start, cycle)));
    if (width > best.width || (width === best.width && width > 0 && start < best.start)) best = { start, width };
  }
  return { start: best.start / 1000, width: best.width / 1000, efficiency: best.width / cycle };
}

/** Vehicles an hour that a band carries without a stop: 3600 W N / h C. */
export function bandCapacity(width: number, cycle: number, lanes = 1, headway = HEADWAY.value): number {
  return (3600 * width * lanes) / (headway * cycle);
}
