/** A firmware image cut into the pages of a chip, and the page that stands in for its first one meanwhile. */

/**
 * `cli`, `wdr`, `rjmp` back to the `wdr` (94F8 95A8 CFFE, low byte first): every pin stays the input that a reset made
 * it, and a watchdog that the loader left armed never bites.
 */
export const PARKING = Uint8Array.of(0xf8, 0x94, 0xa8, 0x95, 0xfe, 0xcf);

/** Erased flash. */
const BLANK = 0xff;

export interface Pages {
  readonly size: number;
  /** Bytes of the image up to the last that is not blank. */
  readonly bytes: number;
  /** Without gaps from address 0. */
  readonly pages: readonly Uint8Array[];
  readonly parking: Uint8Array;
}

/** `flash` from address 0; blank bytes at its end do not count. */
export function pagesOf(flash: Uint8Array, size: number): Pages {
  const bytes = usedBytes(flash);
  const pages: Uint8Array[] = [];
  for (let at = 0; at < bytes; at += size) pages.push(padded(flash.subarray(at, Math.min(at + size, bytes)), size));
  return { size, bytes, pages, parking: padded(PARKING, size) };
}

/** Address of the first byte that is different; null when there is none. */
export function firstDifference(found: Uint8Array, wanted: Uint8Array): number | null {
  const at = wanted.findIndex((byte, index) => byte !== found[index]);
  return at < 0 ? null : at;
}

function usedBytes(flash: Uint8Array): number {
  let used = flash.length;
  while (used > 0 && flash[used - 1] === BLANK) used--;
  return used;
}

function padded(bytes: Uint8Array, size: number): Uint8Array {
  const page = new Uint8Array(size).fill(BLANK);
  page.set(bytes);
  return page;
}
