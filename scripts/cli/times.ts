/** Times as people type them. */

/**
 * Milliseconds of `18`, `18.5`, `18.5s`, `18 s` or `1:05`, or null. Seconds
 * after a colon are below 60; nothing is finer than a millisecond.
 */
export function readTime(text: string): number | null {
  const match = /^\s*(?:(\d{1,3}):([0-5]\d(?:\.\d{1,3})?)|(\d{1,5}(?:\.\d{1,3})?)\s*s?)\s*$/.exec(text);
  if (!match) return null;
  const [, minutes, rest, seconds] = match;
  const whole = seconds === undefined ? Number(minutes) * 60 + Number(rest) : Number(seconds);
  return Math.round(whole * 1000);
}
