/** Times as people read them, the same in panel, log and command line. */

/** Seconds with one decimal below a minute, minutes:seconds above: `18.0 s`, `0.75 s`, `1:05`, `1:05.5`. */
export function timeText(ms: number): string {
  const hundredths = Math.round(ms / 10);
  if (hundredths < 6000) return `${fraction(hundredths, 1)} s`;
  const minutes = Math.floor(hundredths / 6000);
  const rest = hundredths % 6000;
  return `${minutes}:${rest < 1000 ? '0' : ''}${fraction(rest, 0)}`;
}

/** At least so many decimals, more only where they say something. */
function fraction(hundredths: number, decimals: number): string {
  const needed = hundredths % 100 === 0 ? 0 : hundredths % 10 === 0 ? 1 : 2;
  return (hundredths / 100).toFixed(Math.max(decimals, needed));
}
