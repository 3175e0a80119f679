/** What the two loader protocols have in common, as seen by the one who writes through them. */
import type { Outcome } from '../result.ts';

/** What can go wrong in talking to a loader. */
export type Trouble =
  | { readonly kind: 'silent' }
  /** What came is not an answer to what was asked. */
  | { readonly kind: 'garbled'; readonly detail: string }
  /** The loader said no. */
  | { readonly kind: 'refused'; readonly detail: string }
  | { readonly kind: 'ended'; readonly cause: string };

export interface SignOnOptions {
  readonly tries: number;
  /** Asked before each try; true ends the trying, as silence. */
  readonly stop?: () => boolean;
}

/** Nothing here throws. Addresses are byte addresses in flash. */
export interface LoaderClient {
  /** Asks until the loader answers, and makes it ready for programming. */
  signOn(options: SignOnOptions): Promise<Outcome<null, Trouble>>;
  /** Six upper-case hexadecimal digits. */
  signature(): Promise<Outcome<string, Trouble>>;
  /** Whether this loader can erase and write the page at this address now. */
  canProgram(at: number): boolean;
  /** `once`: without repeating the write itself, where a repeat could do harm. */
  programPage(at: number, page: Uint8Array, once?: boolean): Promise<Outcome<null, Trouble>>;
  readPage(at: number, length: number): Promise<Outcome<Uint8Array, Trouble>>;
  /**
   * Sees to it that the next sign-on is answered after a reset only, where a loader that goes on from before would be
   * taken for one that starts anew.
   */
  forget(): Promise<void>;
  /** Lets the program start; false when the loader did not answer. */
  leave(): Promise<boolean>;
}

/** How long a sign-on waits for its answer before it is sent again, ms (common practice, no source). */
export const SIGN_ON_MS = 150;
/** Longer than the delays of a USB bridge both ways (16 ms each). */
export const QUIET_MS = 60;

export function hex(bytes: Iterable<number>): string {
  return Array.from(bytes, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('');
}
