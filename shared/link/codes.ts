/** Numbers on the wire to what they mean and what a person can do. */
import type { LinkError } from './result.ts';
import { CODES, type Code, FAULTS } from './vocabulary.ts';

/** The entry of a code; codes of a newer firmware have their reason from the wire and a general cure. */
export function codeOf(code: number, reasonOnWire = ''): Code {
  const known = CODES.find((entry) => entry.code === code);
  if (known) return known;
  const cure = 'Update the app: the board speaks of something that this version does not know.';
  return { code, key: 'unknown', reason: reasonOnWire || 'unknown reason', cure };
}

/** A refusal as an error. */
export function refusal(code: number, place: number | null, reasonOnWire = ''): LinkError {
  const { key, reason, cure } = codeOf(code, reasonOnWire);
  return { kind: 'refused', code, key, reason, cure, place };
}

export type FaultKey = (typeof FAULTS)[number]['key'] | 'unknown';

/** The key of a FAULT number. */
export function faultOf(code: number): FaultKey {
  return FAULTS.find((fault) => fault.code === code)?.key ?? 'unknown';
}
