/**
 * The offsets with the widest bands in both directions, found exactly.
 *
 * Say where in the cycle the outward band begins (0) and the backward band
 * (`shift`). A junction then lets a band of `out` through when its offset lies
 * in one stretch of the cycle, and one of `back` when it lies in another; both
 * when the two stretches meet. That is so when either keeps to its own bound:
 *
 *     back <= green back - gap    or    out <= green out - (cycle - gap)
 *
 * where `gap` is how far the ends of the stretches are apart. So for each shift
 * only the bounds themselves need be tried as widths: a few for each junction,
 * and no combinations of offsets. All times are whole steps.
 */
import { type Bands, bandsOf } from './bands.ts';
import { ms, onRing, type Street, travelTimes } from './street.ts';

export interface Search {
  /** What a second of band is worth in each direction, 0 or more. Default: 1 each. */
  readonly weights?: { readonly out: number; readonly back: number };
  /**
   * balance: the lesser band, each divided by its weight, as wide as possible, then both together
   * (with equal weights the first problem of "Synchronizing Traffic Signals for Maximal Bandwidth",
   * Operations Research 12, 1964, p. 896); sum: the weighted sum, then the lesser band: may leave
   * one direction without any. Default: balance.
   */
  readonly aim?: 'balance' | 'sum';
  /** s; offsets are multiples of it. Default: 0.1. */
  readonly step?: number;
}

export interface Wave extends Bands {
  /** s into the cycle for each junction's own zero; 0 for the first junction. */
  readonly offsets: readonly number[];
}

interface Found {
  /** What counts first, and what counts where that is equal. */
  readonly worth: readonly [number, number];
  readonly offsets: readonly number[];
}

/** How good two bands are; greater is better, the second value where the first is equal. */
export function worthOf(out: number, back: number, { weights, aim }: Search): readonly [number, number] {
  const { out: there, back: returning } = weights ?? { out: 1, back: 1 };
  const sum = there * out + returning * back;
  if (aim === 'sum') return [sum, Math.min(out, back)];
  const shares = [...(there > 0 ? [out / there] : []), ...(returning > 0 ? [back / returning] : [])];
  return [shares.length === 0 ? 0 : Math.min(...shares), out + back];
}

/** One junction in steps: widths of its greens, and offsets at which they begin with the head of a band. */
interface Stretch {
  readonly out: number;
  readonly back: number;
  readonly outHead: number;
  readonly backHead: number;
}

/** The street must be one that `checkStreet` finds nothing wrong with. */
export function searchOffsets(street: Street, search: Search = {}): Wave {
  const size = commonStep(ms(street.cycle), Math.max(1, ms(search.step ?? 0.1)));
  const cycle = ms(street.cycle) / size;
  const stretches = inSteps(street, size, cycle);
  let best: Found = { worth: [-1, -1], offsets: [] };
  for (let shift = 0; shift < cycle; shift++) {
    const gaps = stretches.map(({ outHead, backHead }) => onRing(backHead + shift - outHead, cycle));
    for (const { out, back } of widths(stretches, gaps, cycle)) {
      const worth = worthOf(out, back, search);
      if (worth[0] < best.worth[0] || (worth[0] === best.worth[0] && worth[1] <= best.worth[1])) continue;
      const offsets = stretches.map((it, index) => {
        const both = back === 0 || it.back >= cycle || back <= it.back - (gaps[index] ?? 0);
        return both && it.out < cycle ? it.outHead : it.backHead + shift;
      });
      best = { worth, offsets };
    }
  }
  const first = best.offsets[0] ?? 0;
  const offsets = best.offsets.map((offset) => (onRing(offset - first, cycle) * size) / 1000);
  return { offsets, ...bandsOf(street, offsets) };
}

/** The greatest step that the cycle is a multiple of, and the wished one too: Euclid's algorithm. */
function commonStep(cycle: number, step: number): number {
  return step === 0 ? cycle : commonStep(step, cycle % step);
}

/** Greens are rounded down, so that a band that is promised is there. */
function inSteps(street: Street, size: number, cycle: number): Stretch[] {
  const [there, returning] = [travelTimes(street, 'out'), travelTimes(street, 'back')];
  return street.stops.map((stop, index) => ({
    out: Math.min(cycle, Math.floor(ms(stop.out.length) / size)),
    back: Math.min(cycle, Math.floor(ms(stop.back.length) / size)),
    outHead: Math.round(((there[index] ?? 0) - ms(stop.out.start)) / size),
    backHead: Math.round(((returning[index] ?? 0) - ms(stop.back.start)) / size),
  }));
}

/** Pairs of widths of which neither can grow alone, at these gaps. A green of the whole cycle sets no bound. */
function widths(
  stretches: readonly Stretch[],
  gaps: readonly number[],
  cycle: number,
): { out: number; back: number }[] {
  /** Widest outward band that leaves the backward one a junction's whole green. */
  const bounds = stretches.map(({ out, back }, index) =>
    out >= cycle || back >= cycle ? out : out - onRing(-(gaps[index] ?? 0), cycle),
  );
  const widest = Math.min(...stretches.map(({ out }) => out));
  return [...new Set([widest, 0, ...bounds])]
    .filter((out) => out >= 0 && out <= widest)
    .map((out) => {
      const backs = stretches.map(({ back }, index) =>
        out === 0 || out <= (bounds[index] ?? 0) ? back : back - (gaps[index] ?? 0),
      );
      return { out, back: Math.max(0, Math.min(...backs)) };
    });
}
