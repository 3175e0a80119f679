/**
 * Moments of the log as people read them. Nothing here has a clock or a time zone of its own: whoever asks says how far
 * its wall clock is ahead of UTC.
 */

/** Minutes that wall clocks are ahead of UTC at a moment, ms since 1970. */
export type Zone = (ms: number) => number;

export const UTC: Zone = () => 0;

export interface Wall {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  /** Days since 1970 by the wall's calendar. */
  readonly days: number;
}

const DAY_MS = 86_400_000;
const ISO = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?(Z|[+-]\d\d:?\d\d)?$/;
const MONTHS = 'January February March April May June July August September October November December'.split(' ');
/** 1 January 1970 was a Thursday. */
const DAYS = 'Thursday Friday Saturday Sunday Monday Tuesday Wednesday'.split(' ');

/** Of ISO 8601, ms since 1970; without a zone it is taken for UTC. Null for anything else. */
export function momentMs(iso: string): number | null {
  const found = ISO.exec(iso);
  if (!found) return null;
  const [, year, month, day, hour, minute, second, fraction, zone] = found;
  const days = daysOf(Number(year), Number(month), Number(day));
  const seconds = (Number(hour) * 60 + Number(minute) - offsetOf(zone)) * 60 + Number(second ?? 0);
  return days * DAY_MS + seconds * 1000 + Math.floor(Number(`0.${fraction ?? 0}`) * 1000);
}

export function wallOf(ms: number, zone: Zone): Wall {
  const local = ms + zone(ms) * 60_000;
  const days = Math.floor(local / DAY_MS);
  const seconds = Math.floor((local - days * DAY_MS) / 1000);
  return {
    ...dateOf(days),
    hour: Math.floor(seconds / 3600),
    minute: Math.floor(seconds / 60) % 60,
    second: seconds % 60,
    days,
  };
}

const two = (value: number): string => String(value).padStart(2, '0');

/** `19:04`. */
export function clockText({ hour, minute }: Wall): string {
  return `${two(hour)}:${two(minute)}`;
}

/** `19:04:12`. */
export function secondsText(wall: Wall): string {
  return `${clockText(wall)}:${two(wall.second)}`;
}

/** `Monday 30 November 2026`. */
export function dateText({ year, month, day, days }: Wall): string {
  return `${DAYS[((days % 7) + 7) % 7]} ${day} ${MONTHS[month - 1]} ${year}`;
}

/** `2026-11-30`. */
export function isoDate({ year, month, day }: Wall): string {
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

function offsetOf(zone: string | undefined): number {
  if (zone === undefined || zone === 'Z') return 0;
  const minutes = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(-2));
  return zone.startsWith('-') ? -minutes : minutes;
}

/** Days since 1970 of a date of the Gregorian calendar; years are counted from March, so that the leap day is the last. */
function daysOf(year: number, month: number, day: number): number {
  const y = month > 2 ? year : year - 1;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + dayOfYear - 719_468;
}

function dateOf(days: number): Pick<Wall, 'year' | 'month' | 'day'> {
  const since = days + 719_468;
  const era = Math.floor(since / 146_097);
  const ofEra = since - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shifted = Math.floor((5 * ofYear + 2) / 153);
  const month = ((shifted + 2) % 12) + 1;
  return {
    year: era * 400 + yearOfEra + (month <= 2 ? 1 : 0),
    month,
    day: ofYear - Math.floor((153 * shifted + 2) / 5) + 1,
  };
}
