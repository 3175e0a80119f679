/** What the worker thread of a live virtual board and its owner tell each other. */
import type { Glow } from '../../../shared/electrics/model.ts';
import type { Chip } from '../../../shared/table/format.ts';
import type { Chain } from '../../../shared/table/model.ts';
import type { Level } from './chain.ts';
import type { CircuitPlan } from './circuit.ts';

/** Times real time, or as fast as the computer can. */
export type Speed = number | 'full';

export interface WorkerStart {
  readonly chip: Chip;
  readonly flash: Uint8Array;
  /** Where the EEPROM is kept between runs; null: nowhere. */
  readonly eepromFile: string | null;
  readonly supplyMillivolts: number;
  readonly speed: Speed;
}

export type ToWorker =
  | { readonly type: 'bytes'; readonly bytes: Uint8Array }
  | { readonly type: 'power'; readonly on: boolean }
  | { readonly type: 'reset' }
  | { readonly type: 'speed'; readonly speed: Speed }
  | { readonly type: 'input'; readonly pin: number; readonly level: 0 | 1 | null }
  | { readonly type: 'chain'; readonly wiring: Chain | null }
  | { readonly type: 'circuit'; readonly plan: CircuitPlan | null }
  | { readonly type: 'quit' };

/** A pin, or with `chain` an output bit of the shift registers, and what it shows from `cycles` on. */
export interface LevelChange {
  readonly chain: boolean;
  readonly number: number;
  readonly level: Level;
  readonly cycles: number;
}

export type FromWorker =
  | { readonly type: 'bytes'; readonly bytes: Uint8Array }
  | { readonly type: 'levels'; readonly changes: readonly LevelChange[] }
  /** What the lamps of the circuit show from now on, by load and head; told when it changes, about 30 times a second at most. */
  | { readonly type: 'glow'; readonly glow: readonly (readonly Glow[])[] | null }
  /** `cycles` of the board so far; sent about ten times a second. */
  | { readonly type: 'time'; readonly cycles: number; readonly powered: boolean }
  | { readonly type: 'failed'; readonly cause: string };
