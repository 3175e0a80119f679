/** What the rules of one country and era look like as data. All times in ms. */

/**
 * seen: in the official text; quoted: elsewhere, quoting it; derived: our
 * arithmetic from seen values; assumed: taken over from another era or place
 * because none was found; memory: from memory, a default and never a check;
 * common: common practice, no source.
 */
export type Confidence = 'seen' | 'quoted' | 'derived' | 'assumed' | 'memory' | 'common';

export interface Fact<T> {
  readonly value: T;
  readonly source: string;
  readonly confidence: Confidence;
}

export type Aspect = 'red' | 'red-with-amber' | 'green' | 'amber' | 'dark' | 'flashing-red' | 'flashing-amber';

/** One time of a practice and how far its dial may be turned on a model. */
export interface TimeRule {
  /** What people there call it. */
  readonly name: string;
  /** Used where the layout says nothing. */
  readonly usual: Fact<number>;
  /** Outside this range the layout departs from the practice: a warning. Null: no published range. */
  readonly range: Fact<readonly [number, number]> | null;
  /** Limits of the dial on the board: a model may differ from the street, within reason. */
  readonly dial: Fact<readonly [number, number]>;
}

export interface JunctionPractice {
  /** Aspects in the order in which a phase goes through them, from red. */
  readonly order: Fact<readonly Aspect[]>;
  readonly amber: TimeRule;
  /** Null where red goes to green at once. */
  readonly redWithAmber: TimeRule | null;
  /** Time for which everything is red between two stages. */
  readonly allRed: TimeRule;
  readonly minGreen: Fact<number>;
  readonly green: TimeRule;
  /** What a head shows after a breach. */
  readonly fault: Fact<Aspect>;
  /** What a head shows when asked to be safe. */
  readonly safe: Fact<Aspect>;
}

export interface ZebraPractice {
  readonly exists: Fact<boolean>;
  readonly on: TimeRule;
  readonly off: TimeRule;
  /** What the beacons show after a fault, and when asked to be safe. */
  readonly fault: Fact<Aspect>;
}

export interface Practice {
  readonly id: string;
  readonly name: string;
  /** Side of the road. */
  readonly drives: Fact<'left' | 'right'>;
  readonly junction: JunctionPractice;
  readonly zebra: ZebraPractice;
}

export function fact<T>(value: T, confidence: Confidence, source: string): Fact<T> {
  return { value, confidence, source };
}

export const COMMON = 'common practice, no source';
