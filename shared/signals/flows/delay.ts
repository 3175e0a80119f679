/**
 * Average delay of a vehicle at a fixed-time signal, by Webster's formula as
 * printed in Salter, Highway Traffic Analysis and Design, ch. 43, and in
 * Rogers, Highway Engineering, eq. 5.35 p. 142:
 *
 *     d = c (1 - λ)² / 2 (1 - λ x)  +  x² / 2 q (1 - x)  -  0.65 (c / q²)^(1/3) x^(2 + 5 λ)
 */
import type { Stream } from './webster.ts';

/** Seconds a vehicle. */
export interface Delay {
  /** From red and green alone, with vehicles that come evenly. */
  readonly uniform: number;
  /** Because they do not come evenly. */
  readonly random: number;
  /** What the first two together say too much. */
  readonly correction: number;
  readonly total: number;
}

/** x = q c / g s: above 1 more vehicles come than the green lets through. */
export function saturationDegree({ flow, saturation }: Stream, cycle: number, green: number): number {
  return (flow * cycle) / (green * saturation);
}

/**
 * `green` is the effective green, s. Null where the formula does not hold: no
 * traffic, no green, or a degree of saturation of 1 and more, where queues grow.
 */
export function delay(stream: Stream, cycle: number, green: number): Delay | null {
  const x = saturationDegree(stream, cycle, green);
  if (!(x > 0 && x < 1 && green <= cycle)) return null;
  const λ = green / cycle;
  const q = stream.flow / 3600;
  const uniform = (cycle * (1 - λ) ** 2) / (2 * (1 - λ * x));
  const random = x ** 2 / (2 * q * (1 - x));
  const correction = 0.65 * (cycle / q ** 2) ** (1 / 3) * x ** (2 + 5 * λ);
  return { uniform, random, correction, total: uniform + random - correction };
}
