/** Moments as they are read here: in the zone of this computer. The host writes them in any zone. */

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

const two = (value: number): string => String(value).padStart(2, '0');

/** `19:04:12` of an ISO 8601 time; the text itself when it is none. */
export function clockTime(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  return [at.getHours(), at.getMinutes(), at.getSeconds()].map(two).join(':');
}

/** `25 Nov 19:02` of an ISO 8601 time; the text itself when it is none. */
export function dayTime(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  return `${at.getDate()} ${MONTHS[at.getMonth()]} ${two(at.getHours())}:${two(at.getMinutes())}`;
}
