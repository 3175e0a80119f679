/**
 * Yellow and intergreens of Germany. Metres, metres a second, seconds.
 *
 * The intergreen formula is unchecked: it is quoted by several courses (FGSV
 * 1992; RiLSA), but no worked example with all its inputs and the printed
 * result was found.
 */
import { type Fact, fact } from '../fact.ts';
import { areLengths, roundUp } from './rounding.ts';

const VWV = 'VwV-StVO on §37, IX, quoted: 3 s at 50 km/h, 4 s at 60, 5 s at 70';
const COURSES = 'RiLSA, as FGSV 1992 and planning tables are quoted';

/** Yellow for a speed limit in km/h; null above 70, for which signals have no value, and below zero. */
export function yellowFor(limit: number): Fact<number> | null {
  if (!(limit > 0)) return null;
  if (limit <= 50) return fact(3, 'quoted', VWV);
  if (limit <= 60) return fact(4, 'quoted', VWV);
  return limit <= 70 ? fact(5, 'quoted', VWV) : null;
}

export type Clearing = 'straight' | 'turning' | 'cycle' | 'tram';

interface ClearingRule {
  /** Crossing time tü: how long after the end of green the last one still goes over the stop line, s. */
  readonly crossing: number;
  /** Clearing speed vr, m/s. */
  readonly speed: number;
  /** Length l that is added to the way, m. */
  readonly length: number;
}

/** Of who leaves the junction last. The tram's speed and crossing time are taken from the straight row: none was found. */
export const CLEARING: Readonly<Record<Clearing, Fact<ClearingRule>>> = {
  straight: fact({ crossing: 3, speed: 10, length: 6 }, 'quoted', COURSES),
  turning: fact({ crossing: 2, speed: 7, length: 6 }, 'quoted', COURSES),
  cycle: fact({ crossing: 1, speed: 4, length: 0 }, 'quoted', COURSES),
  tram: fact(
    { crossing: 3, speed: 10, length: 15 },
    'assumed',
    `length: ${COURSES}; the rest assumed as for straight on`,
  ),
};

/** Speed of the first one that enters, 40 km/h. */
export const ENTERING_SPEED: Fact<number> = fact(40 / 3.6, 'quoted', COURSES);

export interface Intergreen {
  readonly crossing: number;
  readonly clearing: number;
  readonly entering: number;
  /** Not rounded. */
  readonly exact: number;
  /** Whole seconds, up. */
  readonly seconds: number;
}

/**
 * tz = tü + tr − te with tr = (s0 + l) / vr and te = se / ve. `way` is s0, from
 * the stop line to the point of conflict; `entry` is se, the same for the one
 * that enters. Null for a way below zero. Never below zero.
 */
export function intergreen(junction: {
  readonly clearing: Clearing;
  readonly way: number;
  readonly entry: number;
}): Intergreen | null {
  const { way, entry } = junction;
  if (!areLengths(way, entry)) return null;
  const { crossing, speed, length } = CLEARING[junction.clearing].value;
  const clearing = (way + length) / speed;
  const entering = entry / ENTERING_SPEED.value;
  const exact = Math.max(0, crossing + clearing - entering);
  return { crossing, clearing, entering, exact, seconds: roundUp(exact, 1) };
}
