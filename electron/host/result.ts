/** Outcomes of talking to a board: a value, or why there is none. Nothing of the link throws. */
import type { LinkError } from '../../shared/link/result.ts';

export type Outcome<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

/** What can go wrong between host and board. */
export type HostError =
  /** The board said no, or said something that is not in the protocol. */
  | LinkError
  /** No answer, however often asked. */
  | { readonly kind: 'silent' }
  /** Something answers, but not in this protocol. */
  | { readonly kind: 'foreign' }
  /** The stream ended or the session was closed. */
  | { readonly kind: 'ended'; readonly cause: string };

export function fine<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function failed<E>(error: E): { readonly ok: false; readonly error: E } {
  return { ok: false, error };
}
