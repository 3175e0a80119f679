/** One program record of an image back to rows. */
import type { Finding } from '../findings/finding.ts';
import { NO_DIAL, OP } from './format.ts';
import type { Condition, LampState, Program, Row } from './model.ts';
import { problem } from './problems.ts';
import { kindOf, numbersOf, stateOf } from './rows.ts';
import { timeAt } from './time.ts';
import type { ProgramPlace } from './walk.ts';

/** The program at a place that was walked, or the finding that says why it cannot be understood. */
export function decodeProgram(bytes: Uint8Array, place: ProgramPlace, name: string): Program | Finding {
  const byte = (at: number) => bytes[at] ?? 0;
  const { lamps } = place;
  const rows: Row[] = [];
  for (const [index, at] of place.rows.entries()) {
    const row = decodeRow(bytes, at, lamps);
    if (!row) return problem('badRow', `image[${at}]`, `Row ${index} of ${name} has an unknown condition.`);
    rows.push(row);
  }
  const flash = byte(place.at + 6);
  return {
    name,
    lamps: numbered('lamp', lamps),
    dials: numbered('dial', place.dials).map((dial, index) => {
      const at = place.dialsAt + 4 * index;
      return { name: dial, min: timeAt(bytes, at), max: timeAt(bytes, at + 2) };
    }),
    inputs: numbered('input', place.inputs),
    flash: flash === (NO_DIAL << 4) + NO_DIAL ? null : { on: flash >> 4, off: flash & 15 },
    fault: unpackStates(bytes, place.faultAt, lamps),
    safe: unpackStates(bytes, place.safeAt, lamps),
    conflicts: Array.from({ length: place.conflicts }, (_, pair) => {
      const at = place.conflictsAt + 2 * pair;
      return [byte(at), byte(at + 1)] as const;
    }),
    rows,
  };
}

function numbered(word: string, count: number): string[] {
  return Array.from({ length: count }, (_, index) => `${word} ${index + 1}`);
}

function unpackStates(bytes: Uint8Array, at: number, lamps: number): LampState[] {
  return Array.from({ length: lamps }, (_, lamp) => stateOf((bytes[at + (lamp >> 2)] ?? 0) >> (2 * (lamp & 3))));
}

function decodeRow(bytes: Uint8Array, at: number, lamps: number): Row | null {
  const [first = 0, second = 0, third = 0, fourth = 0] = bytes.subarray(at, at + 4);
  const dial = first >> 4;
  const states = (skipped: number) => unpackStates(bytes, at + 1 + skipped, lamps);
  switch (first & 15) {
    case OP.after:
      return { op: 'after', dial, states: states(0) };
    case OP.until: {
      const when = decodeCondition(second, third);
      return when && { op: 'until', min: dial, when, states: states(2) };
    }
    case OP.untilMax: {
      const when = decodeCondition(second, third);
      return when && { op: 'untilMax', min: dial, max: second >> 4, when, states: states(2) };
    }
    case OP.extend: {
      const [gap, max] = [second & 15, second >> 4];
      const [detectors, opposing] = [numbersOf(third), numbersOf(fourth)];
      return { op: 'extend', min: dial, gap, max, detectors, opposing, states: states(3) };
    }
    case OP.random:
      return { op: 'random', low: dial, high: second, states: states(1) };
    case OP.sync:
      return { op: 'sync', min: dial, offset: second, states: states(1) };
    case OP.jump: {
      const when = decodeCondition(second, third);
      return when && { op: 'jump', when, to: fourth };
    }
    case OP.clear:
      return { op: 'clear', inputs: numbersOf(second) };
    case OP.latch:
      return { op: 'latch', inputs: numbersOf(second) };
    default:
      return null;
  }
}

function decodeCondition(kindByte: number, mask: number): Condition | null {
  const kind = kindOf(kindByte & 15);
  if (kind === null) return null;
  return kind === 'chance' ? { kind, outOf256: mask } : { kind, inputs: numbersOf(mask) };
}
