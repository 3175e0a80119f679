/**
 * Time words: times of the board image in 16 bits. With bit 15 clear the value
 * counts 10 ms; with bit 15 set the other bits count seconds. See
 * firmware/PROTOCOL.md, chapter 2.
 */

/** Longest time in the 10 ms form, ms. */
const FINE_MAX = 327_670;
/** Longest time of all, ms: 32,767 s. */
export const TIME_MAX = 32_767_000;

const SECONDS_BIT = 0x8000;

/** The word for a time in ms, or null when no word stands for exactly this time. */
export function encodeTime(ms: number): number | null {
  if (!Number.isInteger(ms) || ms < 0 || ms > TIME_MAX) return null;
  if (ms <= FINE_MAX) return ms % 10 === 0 ? ms / 10 : null;
  return ms % 1000 === 0 ? SECONDS_BIT | (ms / 1000) : null;
}

/** The time in ms that a word stands for. Every word stands for one. */
export function decodeTime(word: number): number {
  return word & SECONDS_BIT ? (word & 0x7fff) * 1000 : (word & 0x7fff) * 10;
}

/** The time in ms of the word at a byte offset, low byte first. */
export function timeAt(bytes: Uint8Array, at: number): number {
  return decodeTime((bytes[at] ?? 0) | ((bytes[at + 1] ?? 0) << 8));
}

/** The nearest time that a word can hold, ms; half way between two, the longer. */
export function nearestTime(ms: number): number {
  if (!(ms > 0)) return 0;
  if (ms >= TIME_MAX) return TIME_MAX;
  const fine = Math.floor((ms + 5) / 10) * 10;
  if (fine <= FINE_MAX) return fine;
  // Between the last fine word and the first coarse one, 328 s, lie 330 ms.
  return ms < 327_835 ? FINE_MAX : Math.floor((ms + 500) / 1000) * 1000;
}
