/** A value with its source, and the time rules made of such values. All times in ms. */

/**
 * seen: in the official text; quoted: elsewhere, quoting it; derived: our
 * arithmetic from seen values; assumed: taken over from another era or place
 * because none was found; memory: from memory, a default and never a check;
 * common: common practice, no source; owner: chosen by the owner of the layout.
 */
export type Confidence = 'seen' | 'quoted' | 'derived' | 'assumed' | 'memory' | 'common' | 'owner';

export interface Fact<T> {
  readonly value: T;
  readonly source: string;
  readonly confidence: Confidence;
}

/** Least and greatest. */
export type Span = readonly [number, number];

/** One time of a practice and how far its dial may be turned on a model. */
export interface TimeRule {
  /** What people there call it. */
  readonly name: string;
  /** Used where the layout says nothing. */
  readonly usual: Fact<number>;
  /** Outside this range the layout departs from the practice: a warning. Null: no published range. */
  readonly range: Fact<Span> | null;
  /** Limits of the dial on the board: a model may differ from the street, within reason. */
  readonly dial: Fact<Span>;
}

/** How fast something may flash; a warning outside. */
export interface FlashRule {
  /** Flashes a minute of each lamp. */
  readonly perMinute: Fact<Span>;
  /** Lit share of one flash, 0 to 1. Null: no published range. */
  readonly lit: Fact<Span> | null;
}

export function fact<T>(value: T, confidence: Confidence, source: string): Fact<T> {
  return { value, confidence, source };
}

export const COMMON = 'common practice, no source';
export const MODEL_DIAL = `${COMMON}: model layouts shorten and stretch times`;

/** A value without a source. */
export function common<T>(value: T): Fact<T> {
  return fact(value, 'common', COMMON);
}

/** A time rule; without `range` nothing is warned about. */
export function time(name: string, usual: Fact<number>, dial: Span, range: Fact<Span> | null = null): TimeRule {
  return { name, usual, range, dial: fact(dial, 'common', MODEL_DIAL) };
}
