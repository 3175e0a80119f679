/** Counts, spans and lists in words. */

const WORDS = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

/** `three changes`, `1 change` never: `one change`; figures from 13 on. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${WORDS[count] ?? grouped(count)} ${count === 1 ? one : many}`;
}

/** `once`, `twice`, `three times`. */
export function timesText(count: number): string {
  if (count === 1) return 'once';
  return count === 2 ? 'twice' : counted(count, 'time');
}

/** `10,000`. */
export function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ',');
}

/** `12 seconds`, `12 minutes`, `2 hours 10 minutes`, `3 days`. */
export function spanText(ms: number): string {
  const seconds = Math.max(0, Math.round(ms / 1000));
  if (seconds < 90) return plain(seconds, 'second');
  const minutes = Math.round(seconds / 60);
  if (minutes < 90) return plain(minutes, 'minute');
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (hours < 48) return rest === 0 ? plain(hours, 'hour') : `${plain(hours, 'hour')} ${plain(rest, 'minute')}`;
  return plain(Math.round(hours / 24), 'day');
}

/** `a`, `a and b`, `a, b and c`; of more than `most` the rest is counted. */
export function listed(parts: readonly string[], most = 4): string {
  const shown = parts.length > most ? [...parts.slice(0, most - 1), `${parts.length - most + 1} more`] : parts;
  return shown.length < 2 ? (shown[0] ?? '') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}

function plain(count: number, unit: string): string {
  return `${count} ${unit}${count === 1 ? '' : 's'}`;
}
