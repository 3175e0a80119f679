/** Which copies of what a board kept are worth their room: the near past in full, the far past in outline. */

/** Of today, of the days before, of the weeks before: so many at most. */
const TODAY = 20;
const DAYS = 6;
const WEEKS = 8;
const DAY_MS = 86_400_000;
/** The first of 1970 was a Thursday. */
const MONDAY = 3;

/**
 * Copies newest first, thinned: those of today, the last of each day of the week before, the last of each week
 * before that. `now` decides what today is, in the zone of this computer. However often something is kept today,
 * last week's stays.
 */
export function thinned<T extends { readonly at: string }>(copies: readonly T[], now: Date): T[] {
  const kept: T[] = [];
  const room = new Map([
    ['today', TODAY],
    ['day', DAYS],
    ['week', WEEKS],
  ]);
  let last = '';
  for (const copy of copies) {
    const day = dayNumber(new Date(copy.at));
    const age = dayNumber(now) - day;
    const kind = age <= 0 ? 'today' : age <= DAYS ? 'day' : 'week';
    // Weeks of the calendar: ones that are counted back from today would move on each day and drop what is in them.
    const span = kind === 'today' ? '' : kind === 'day' ? `day ${day}` : `week ${Math.floor((day + MONDAY) / 7)}`;
    const left = room.get(kind) ?? 0;
    if ((span !== '' && span === last) || left === 0) continue;
    room.set(kind, left - 1);
    last = span;
    kept.push(copy);
  }
  return kept;
}

/** Days since the first of 1970, by the calendar of this computer. A time that cannot be read is as old as can be. */
function dayNumber(date: Date): number {
  return Number.isNaN(date.getTime()) ? 0 : Date.UTC(date.getFullYear(), date.getMonth(), date.getDate()) / DAY_MS;
}
