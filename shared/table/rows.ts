/** How long records are: the arithmetic that encoder, decoder and budget share. */
import { COND, LAMP_STATE, OP } from './format.ts';
import type { Action, Condition, Interval, LampState, Program, Row } from './model.ts';

export const HEADER_BYTES = 12;
export const CHAIN_BYTES = 4;
export const LAMP_BYTES = 2;
export const INPUT_BYTES = 4;
export const GROUP_BYTES = 8;
export const PROGRAM_HEAD_BYTES = 8;
export const SITE_HEAD_BYTES = 5;

/** Bytes of the packed states of so many lamps: four to a byte. */
export function aspectBytes(lamps: number): number {
  return Math.ceil(lamps / 4);
}

/** Bytes of a row by its operation number, first byte included; null for an unknown operation. */
export function rowBytes(op: number, lamps: number): number | null {
  const states = aspectBytes(lamps);
  switch (op) {
    case OP.after:
      return 1 + states;
    case OP.until:
    case OP.untilMax:
      return 3 + states;
    case OP.extend:
      return 4 + states;
    case OP.random:
    case OP.sync:
      return 2 + states;
    case OP.jump:
      return 4;
    case OP.clear:
    case OP.latch:
      return 2;
    default:
      return null;
  }
}

/** Bytes of a whole program record. */
export function programBytes(program: Program): number {
  const lamps = program.lamps.length;
  const rows = program.rows.reduce((sum, row) => sum + (rowBytes(OP[row.op], lamps) ?? 0), 0);
  return PROGRAM_HEAD_BYTES + 4 * program.dials.length + 2 * aspectBytes(lamps) + 2 * program.conflicts.length + rows;
}

export function isInterval(row: Row): row is Interval {
  return 'states' in row;
}

export function isAction(row: Row): row is Action {
  return !isInterval(row);
}

export type CondKind = Condition['kind'];

const STATE_NAMES = Object.keys(LAMP_STATE) as LampState[];
const KIND_NAMES = Object.keys(COND) as CondKind[];

/** The state that a two-bit number stands for. */
export function stateOf(bits: number): LampState {
  return STATE_NAMES.find((name) => LAMP_STATE[name] === (bits & 3)) ?? 'dark';
}

/** The condition kind of a number, or null. */
export function kindOf(number: number): CondKind | null {
  return KIND_NAMES.find((name) => COND[name] === number) ?? null;
}

/** Bit mask of a list of numbers 0..7. */
export function maskOf(numbers: readonly number[]): number {
  return numbers.reduce((mask, number) => mask | (1 << number), 0);
}

/** The numbers 0..7 whose bits are set. */
export function numbersOf(mask: number): number[] {
  return [0, 1, 2, 3, 4, 5, 6, 7].filter((number) => mask & (1 << number));
}
