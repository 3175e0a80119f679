/** Outcomes of talking to a board: a value, or why there is none. Nothing of the link throws. */
import type { LinkError } from '../../shared/link/result.ts';

export { failed, fine, type Outcome } from '../../shared/link/result.ts';

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
