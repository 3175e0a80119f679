/**
 * A row of junctions on one cycle, as traffic along the street sees it. Metres
 * and seconds of the street; what a model of it measures is for others to say.
 */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';

/** out: from the first junction to the last; back: the other way. */
export type Direction = 'out' | 'back';

/** A green: seconds after the junction's own zero at which it begins, and how long it lasts. */
export interface Green {
  readonly start: number;
  readonly length: number;
}

export interface Stop {
  readonly id: string;
  readonly name: string;
  /** Metres from the first junction. */
  readonly distance: number;
  readonly out: Green;
  readonly back: Green;
}

export interface Street {
  readonly name: string;
  /** s */
  readonly cycle: number;
  /** Metres a second. */
  readonly speed: Readonly<Record<Direction, number>>;
  /** In order along the street. */
  readonly stops: readonly Stop[];
}

/** Whole milliseconds, so that comparing times needs no tolerance. */
export function ms(seconds: number): number {
  return Math.round(seconds * 1000);
}

/** The value on a ring: 0 or more and below `size`. */
export function onRing(value: number, size: number): number {
  return ((value % size) + size) % size;
}

/** When a vehicle passes each stop, ms after it passed the first one on its way (`back`: the last). */
export function travelTimes({ stops, speed }: Street, direction: Direction): number[] {
  const from = (direction === 'out' ? stops[0] : stops.at(-1))?.distance ?? 0;
  return stops.map((stop) => ms(Math.abs(stop.distance - from) / speed[direction]));
}

/** What keeps a street from being co-ordinated; empty when nothing does. */
export function checkStreet(street: Street): Finding[] {
  const { cycle, speed, stops } = street;
  if (stops.length < 2) return [tooFew()];
  if (!(Number.isFinite(cycle) && ms(cycle) > 0)) return [badNumber('cycle', 'Write a cycle such as 60 s.')];
  if (![speed.out, speed.back].every((it) => Number.isFinite(it) && it > 0)) {
    return [badNumber('speed', 'Write a speed such as 30 mph.')];
  }
  return stops.flatMap((stop, index) => {
    const before = stops[index - 1]?.distance ?? Number.NEGATIVE_INFINITY;
    if (!(Number.isFinite(stop.distance) && stop.distance > before)) return [notFurther(stop.name)];
    const greens = [stop.out, stop.back];
    if (greens.every((it) => Number.isFinite(it.start) && it.length > 0 && it.length <= cycle)) return [];
    return [noGreen(stop.name)];
  });
}

function tooFew(): Finding {
  return error('street-too-short', 'sites', {
    what: 'There are fewer than two junctions.',
    why: 'A green wave runs from one to the next.',
    cure: 'Name two or more, in their order along the street.',
  });
}

function badNumber(what: string, cure: string): Finding {
  return error(`bad-${what}`, 'sites', {
    what: `The ${what} is not above zero.`,
    why: 'Without it nobody can tell when the traffic arrives.',
    cure,
  });
}

function notFurther(name: string): Finding {
  return error('out-of-order', 'sites', {
    what: `${name} is not further along the street than the junction before it.`,
    why: 'The junctions are met one after the other.',
    cure: 'Name them in their order along the street, and correct places or distances.',
  });
}

function noGreen(name: string): Finding {
  return error('no-green-along', 'sites', {
    what: `${name} has no green along the street that fits into the cycle.`,
    why: 'The wave would end there.',
    cure: 'Choose the phase of the street, or a longer cycle.',
  });
}
