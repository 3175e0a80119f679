/**
 * From junction to junction: how long after one green the next begins, and by
 * how much that is early or late for the traffic.
 *
 * On a two-way street the two directions are not free of each other: t(out) +
 * t(back) = n C for each link (NPTEL 105101008, lecture 38), where both
 * directions have the same green at each junction.
 */
import { type Direction, ms, onRing, type Street, travelTimes } from './street.ts';

export interface Link {
  readonly from: string;
  readonly to: string;
  /** s from the begin of one green to the begin of the next, the one nearest to the arrival. */
  readonly offset: number;
  /** s that traffic takes: the ideal offset. */
  readonly ideal: number;
  /** offset - ideal, from -cycle / 2 to cycle / 2: above zero traffic waits, below it finds green already. */
  readonly late: number;
}

/** In the order in which traffic of the direction meets them. */
export function linksOf(street: Street, offsets: readonly number[], direction: Direction): Link[] {
  const cycle = ms(street.cycle);
  const travel = travelTimes(street, direction);
  const begins = street.stops.map((stop, index) => ms(offsets[index] ?? 0) + ms(stop[direction].start));
  const order = street.stops.map((_, index) => index);
  if (direction === 'back') order.reverse();
  return order.slice(1).map((to, at) => {
    const from = order[at] ?? 0;
    const ideal = (travel[to] ?? 0) - (travel[from] ?? 0);
    const apart = onRing((begins[to] ?? 0) - (begins[from] ?? 0) - ideal, cycle);
    const late = apart > cycle / 2 ? apart - cycle : apart;
    return {
      from: street.stops[from]?.id ?? '',
      to: street.stops[to]?.id ?? '',
      offset: (ideal + late) / 1000,
      ideal: ideal / 1000,
      late: late / 1000,
    };
  });
}
