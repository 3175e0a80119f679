/** What the answers to requests say. Times are ms, voltages mV. */
import type { Capacity } from '../table/format.ts';
import type { FaultKey } from './codes.ts';
import type { DeedKey, FlagKey, Master, SiteFlagKey } from './fields.ts';

export interface Who {
  readonly protocol: number;
  readonly firmware: string;
  readonly store: number;
  readonly chip: string;
  /** 8 hexadecimal digits. */
  readonly identity: string;
  /** Table hash, or null without a table. */
  readonly shape: number | null;
  readonly name: string;
}

export interface Caps extends Omit<Capacity, 'pins'> {
  /** Longest request line, newline included. */
  readonly request: number;
  /** Image bytes in a `part` and in a `read`. */
  readonly part: number;
  readonly read: number;
}

export interface BoardState {
  /** Uptime, s. */
  readonly seconds: number;
  readonly cause: string;
  /** Supply. */
  readonly millivolts: number;
  /** Bytes of stack never used. */
  readonly stack: number;
  readonly master: Master;
  readonly flags: ReadonlySet<FlagKey>;
  readonly badLines: number;
  readonly keeps: number;
}

export interface ImageSum {
  readonly length: number;
  readonly crc: number;
  readonly shape: number;
}

export interface ImagePart {
  readonly offset: number;
  readonly bytes: Uint8Array;
}

export interface InputLevels {
  readonly levels: readonly boolean[];
  readonly demands: readonly boolean[];
}

export interface Snapshot {
  readonly ms: number;
  readonly lit: readonly boolean[];
  readonly demands: readonly boolean[];
  readonly master: Master;
  readonly flags: ReadonlySet<FlagKey>;
}

export interface SiteSnapshot {
  readonly row: number;
  /** Negative before a delayed start. */
  readonly elapsed: number;
  readonly flags: ReadonlySet<SiteFlagKey>;
  readonly fault: FaultKey;
}

/** What a probe of one pin reads; null for what pin or polarity cannot give. */
export interface PinReading {
  /** Digital level under the weak pull-up. */
  readonly level: 0 | 1 | null;
  /** At rest, of 1,023 for the supply. */
  readonly rest: number | null;
  /** While the lamp is driven for some microseconds, of 1,023 for the supply. */
  readonly lit: number | null;
}

export interface Supply {
  readonly millivolts: number;
  /** Lowest since the last question, mV. */
  readonly least: number;
  /** Internal reference as calibrated, mV; null: never calibrated, so the others may be 10 % off. */
  readonly reference: number | null;
}

/** What the guard of a board has seen since the board started. */
export interface GuardRecord {
  /** Faults of sites; 255: that or more. */
  readonly faults: number;
  /** Of the last one; null where there was none. */
  readonly site: number | null;
  readonly fault: FaultKey;
  readonly deeds: ReadonlySet<DeedKey>;
  /** Restarts since power-on, as far as the board can tell; 255: that or more. */
  readonly watchdogs: number;
  readonly brownouts: number;
}
