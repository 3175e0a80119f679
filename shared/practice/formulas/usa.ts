/**
 * Change and clearance intervals of the United States. Speeds in mph, lengths
 * in feet, times in seconds, as the sources print them. Null for inputs that no
 * street has: a speed of zero or below, a downgrade on which nobody can stop.
 */
import { areLengths, roundUp } from './rounding.ts';

/** Feet a second in one mile an hour, as the sources round it (5280 / 3600). */
const MPH = 1.47;
/** ft/s²: perception-reaction 1 s and deceleration 10 ft/s², MassDOT memorandum of 8 January 2013, equation 1. */
const REACTION = 1;
const DECELERATION = 10;
/** Limits of every yellow: MUTCD, quoted by FDOT Traffic Engineering Manual 3.6.1; COMAR 11.04.14.03 C. */
const LEAST_YELLOW = 3;
const GREATEST_YELLOW = 6;

interface Approach {
  /** 85th percentile, mph. */
  readonly speed: number;
  /** Rise along the way in, as a share: 0.04 is 4 % uphill. Default: 0. */
  readonly grade?: number;
  /** ft/s². Default: 10. */
  readonly deceleration?: number;
}

/**
 * Yellow change interval, not rounded, at least 3 s (MassDOT 2013):
 * Y = t + 1.47 V / (2 a + 64.4 g).
 */
export function yellowChange({ speed, grade = 0, deceleration = DECELERATION }: Approach): number | null {
  const stopping = 2 * deceleration + 64.4 * grade;
  if (!(speed > 0 && stopping > 0 && Number.isFinite(speed / stopping))) return null;
  return Math.max(LEAST_YELLOW, REACTION + (MPH * speed) / stopping);
}

/**
 * The same in the form of Maryland (COMAR 11.04.14.03), up to the next half
 * second and held between 3 and 6 s: Y = 1.0 + 0.733 S / (D + 0.32 G).
 * No worked example was found in print: the rules for rounding and limits are
 * checked, and that it agrees with the other form.
 */
export function marylandYellow({ speed, grade = 0, deceleration = DECELERATION }: Approach): number | null {
  const stopping = deceleration + 0.32 * grade * 100;
  if (!(speed > 0 && stopping > 0 && Number.isFinite(speed / stopping))) return null;
  const exact = 1 + (0.733 * speed) / stopping;
  return Math.min(GREATEST_YELLOW, Math.max(LEAST_YELLOW, roundUp(exact, 0.5)));
}

/** Red clearance, not rounded: the way across and the vehicle's own length, (W + L) / 1.47 V. At the 15th percentile speed. */
export function redClearance(street: {
  readonly width: number;
  readonly vehicle: number;
  readonly speed: number;
}): number | null {
  const { width, vehicle, speed } = street;
  if (!areLengths(width, vehicle) || !(speed > 0) || !Number.isFinite(speed)) return null;
  return (width + vehicle) / (MPH * speed);
}

export interface WalkTimes {
  readonly walk: number;
  /** Flashing don't walk. */
  readonly clearance: number;
  readonly total: number;
}

/**
 * Walk and clearance in whole seconds (MUTCD §4E.06 ¶7, 14): the clearance for
 * the crossing at 3.5 ft/s; walk at least 7 s and so long that who starts at
 * the button with it can cross at 3.0 ft/s. `setBack` is the way from the
 * button to the kerb, 6 ft where there is none.
 */
export function walkTimes(street: { readonly crossing: number; readonly setBack?: number }): WalkTimes | null {
  const { crossing, setBack = 6 } = street;
  if (!areLengths(crossing, setBack)) return null;
  const clearance = roundUp(crossing / 3.5, 1);
  const slower = roundUp((crossing + setBack) / 3.0, 1);
  const walk = Math.max(7, slower - clearance);
  return { walk, clearance, total: walk + clearance };
}

/** The same by the edition of 2003: walk 7 s, clearance at 4.0 ft/s, no second check. */
export function walkTimes2003(street: { readonly crossing: number }): WalkTimes | null {
  if (!areLengths(street.crossing)) return null;
  const clearance = roundUp(street.crossing / 4.0, 1);
  return { walk: 7, clearance, total: 7 + clearance };
}
