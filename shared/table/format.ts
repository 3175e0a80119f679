/**
 * The numbers of the board image format, version 1. This file, together with
 * shared/link/vocabulary.ts, is the one source of the C header
 * firmware/core/vocabulary.h and of the tables in firmware/PROTOCOL.md;
 * `npm run vocabulary` writes both and a test fails when they drift.
 */

/** First byte of every board image. */
export const IMAGE_FORMAT = 1;

/** Version of the store in the EEPROM (firmware/PROTOCOL.md, chapter 3). */
export const STORE_VERSION = 1;

/** "No lamp", "no input", "no pin" in a byte field. */
export const NONE = 0xff;

/** "No dial" in a four-bit field: the default flash times apply. */
export const NO_DIAL = 15;

/** "No group" in a site's four-bit group field. */
export const NO_GROUP = 15;

/** Outputs from here on are bits of the shift-register chain; below, board pins. */
export const CHAIN_BASE = 128;

/** Flash times where a program names no flash dials, ms. */
export const DEFAULT_FLASH_MS = 500;

/** A sync output is lit for this long at the start of each cycle, ms. */
export const SYNC_PULSE_MS = 200;

/** Transitions one site may make within one tick before it is stuck. */
export const MAX_STEPS = 16;

/** A site at fault shows its fault aspect, then its safe aspect, for so long, ms, and then starts by itself. */
export const FAULT_RETURN = {
  show: 5000,
  clear: 5000,
  /** So often in each span of the board's time, ms; then it stays. At most 3: a board counts in two bits. */
  times: 3,
  span: 4_096_000,
} as const;

/** Program limits that hold on every chip. */
export const PROGRAM_LIMITS = {
  lamps: 32,
  dials: 15,
  inputs: 8,
  rows: 255,
  conflicts: 64,
} as const;

/** Two-bit lamp states of a row. */
export const LAMP_STATE = { dark: 0, lit: 1, flash: 2, alternate: 3 } as const;

/** Row operations (low four bits of a row's first byte). */
export const OP = {
  after: 0,
  until: 1,
  untilMax: 2,
  extend: 3,
  random: 4,
  sync: 5,
  jump: 6,
  clear: 7,
  latch: 8,
} as const;

/** Condition kinds (low four bits of a condition's first byte). */
export const COND = {
  demand: 0,
  noDemand: 1,
  active: 2,
  inactive: 3,
  changed: 4,
  chance: 5,
  allActive: 6,
  notAll: 7,
} as const;

/** What a site does while the board is set to night (low two bits of its flags). */
export const AT_NIGHT = { run: 0, fault: 1, safe: 2, dark: 3 } as const;

/** Kinds of light source, bits 6-5 of a lamp's attribute byte. */
export const LAMP_TYPE = { led: 0, smallFilament: 1, largeFilament: 2 } as const;

/** What one chip can hold; `image` is one store slot, bytes. */
export interface Capacity {
  readonly image: number;
  readonly lamps: number;
  readonly sites: number;
  readonly inputs: number;
  readonly groups: number;
  readonly programs: number;
  readonly chips: number;
  /** Highest pin number usable as an output or input. */
  readonly pins: number;
}

export type Chip = 'atmega328p' | 'atmega2560';

export const CAPACITY: Readonly<Record<Chip, Capacity>> = {
  atmega328p: { image: 480, lamps: 64, sites: 16, inputs: 16, groups: 4, programs: 16, chips: 8, pins: 19 },
  atmega2560: { image: 2016, lamps: 128, sites: 32, inputs: 32, groups: 8, programs: 32, chips: 16, pins: 69 },
};
