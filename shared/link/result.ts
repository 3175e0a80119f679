/** Outcomes of the link: a value or an error, never an exception. */

/** Why a request came to nothing, as far as lines can tell. */
export type LinkError =
  /** The board refused; `key` names the code, `place` is a byte of the image or null. */
  | {
      readonly kind: 'refused';
      readonly code: number;
      readonly key: string;
      readonly reason: string;
      readonly cure: string;
      readonly place: number | null;
    }
  /** The line was whole, but is not what the protocol says. */
  | { readonly kind: 'misunderstood'; readonly what: string };

export type Outcome<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export type Result<T> = Outcome<T, LinkError>;

export function fine<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function failed<E>(error: E): { readonly ok: false; readonly error: E } {
  return { ok: false, error };
}

export function misunderstood(what: string): { readonly ok: false; readonly error: LinkError } {
  return failed({ kind: 'misunderstood', what });
}
