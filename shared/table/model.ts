/**
 * The phase tables of one board, as plain data: what the compiler makes, what
 * the board image encodes, what the reference interpreter runs. All times are
 * whole milliseconds. Indices count from 0.
 */
import type { Chip } from './format.ts';

export type LampState = 'dark' | 'lit' | 'flash' | 'alternate';

/**
 * A condition on a program's inputs. `inputs` are program-level input numbers
 * (0..7); a site binds each of them to an input of the board.
 *
 * demand: any is latched; noDemand: none is latched; active: any level is
 * active; inactive: none is; changed: any level differs from what it was when
 * the row began; allActive: every one is; notAll: at least one is not.
 * chance: true `outOf256` times in 256, by the site's own generator.
 */
export type Condition =
  | {
      readonly kind: 'demand' | 'noDemand' | 'active' | 'inactive' | 'changed' | 'allActive' | 'notAll';
      readonly inputs: readonly number[];
    }
  | { readonly kind: 'chance'; readonly outOf256: number };

/** A row that shows lamps. `states` has one entry for each lamp of the program. */
export type Interval =
  /** Leaves when `dial` has passed. */
  | { readonly op: 'after'; readonly dial: number; readonly states: readonly LampState[] }
  /** Leaves when `min` has passed and the condition holds. */
  | { readonly op: 'until'; readonly min: number; readonly when: Condition; readonly states: readonly LampState[] }
  /** As `until`, but leaves at `max` at the latest. */
  | {
      readonly op: 'untilMax';
      readonly min: number;
      readonly max: number;
      readonly when: Condition;
      readonly states: readonly LampState[];
    }
  /** Vehicle-actuated green; see firmware/PROTOCOL.md. */
  | {
      readonly op: 'extend';
      readonly min: number;
      readonly gap: number;
      readonly max: number;
      readonly detectors: readonly number[];
      readonly opposing: readonly number[];
      readonly states: readonly LampState[];
    }
  /** Leaves after a random time from `low` to `high`, drawn on entry. */
  | { readonly op: 'random'; readonly low: number; readonly high: number; readonly states: readonly LampState[] }
  /** Leaves at the group's cycle point `offset`, not before `min` has passed. */
  | { readonly op: 'sync'; readonly min: number; readonly offset: number; readonly states: readonly LampState[] };

/** A row that takes no time. */
export type Action =
  | { readonly op: 'jump'; readonly when: Condition; readonly to: number }
  | { readonly op: 'clear'; readonly inputs: readonly number[] }
  | { readonly op: 'latch'; readonly inputs: readonly number[] };

export type Row = Interval | Action;

/** Limits of a dial, ms. `name` is for people; it is not in the image. */
export interface DialLimits {
  readonly name: string;
  readonly min: number;
  readonly max: number;
}

export interface Program {
  readonly name: string;
  readonly lamps: readonly string[];
  readonly dials: readonly DialLimits[];
  readonly inputs: readonly string[];
  /** Dials that time the flashing lamps: lit for `on`, dark for `off`. Absent: 500 ms each. */
  readonly flash: { readonly on: number; readonly off: number } | null;
  /** What the site shows after a breach. */
  readonly fault: readonly LampState[];
  /** What the site shows when asked to be safe. */
  readonly safe: readonly LampState[];
  /** Pairs of lamps that are never both other than dark in one interval. */
  readonly conflicts: readonly (readonly [number, number])[];
  readonly rows: readonly Row[];
}

export type AtNight = 'run' | 'fault' | 'safe' | 'dark';

export interface SiteBinding {
  readonly name: string;
  readonly program: number;
  /** Row that the site begins with; must be an interval or lead to one. */
  readonly start: number;
  /** The first interval lasts this much longer once, ms. */
  readonly offset: number;
  readonly atNight: AtNight;
  readonly group: number | null;
  /** For each input of the program the board input, or null for never active. */
  readonly inputs: readonly (number | null)[];
  /** Starting value of each dial, ms. */
  readonly dials: readonly number[];
}

export type LampType = 'led' | 'smallFilament' | 'largeFilament';

export interface LampOutput {
  readonly name: string;
  /** Board pin 0..69 or, from 128 on, bit of the chain. */
  readonly output: number;
  readonly activeLow: boolean;
  readonly type: LampType;
  /** 0..31, 31 is full. Carried by the format. */
  readonly brightness: number;
}

export interface InputPin {
  readonly name: string;
  readonly pin: number;
  readonly activeLow: boolean;
  readonly pullUp: boolean;
  /** A level counts when it has been steady for this long, 0..255 ms. */
  readonly debounce: number;
  /** Board lamp that is lit while a demand is latched here. */
  readonly indicator: number | null;
}

export interface Group {
  readonly name: string;
  readonly cycle: DialLimits & { readonly value: number };
  /** Board lamp that is lit for 200 ms at the start of each cycle. */
  readonly syncOut: number | null;
  /** Board input whose rising edge starts the cycle. */
  readonly syncIn: number | null;
}

export interface Chain {
  readonly chips: number;
  readonly data: number;
  readonly clock: number;
  readonly latch: number;
  /** Output-enable pin, or null where it is tied low. */
  readonly enable: number | null;
}

/**
 * Everything one board runs. The lamps of site 0 come first, then those of
 * site 1, and so on; lamps after the last site's are indicators and sync outputs.
 */
export interface BoardTable {
  readonly chip: Chip;
  /** Power-on sweep, time per lamp in ms, multiple of 10 up to 2,550; 0 for none. */
  readonly sweep: number;
  /** Share of each lamp's brightness at night, 0..255 of 255. */
  readonly nightLevel: number;
  readonly nightInput: number | null;
  readonly offInput: number | null;
  readonly chain: Chain | null;
  readonly lamps: readonly LampOutput[];
  readonly inputs: readonly InputPin[];
  readonly groups: readonly Group[];
  readonly programs: readonly Program[];
  readonly sites: readonly SiteBinding[];
}
