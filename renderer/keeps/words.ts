/** Earlier keeps and the wear of a memory in plain words. */
import type { BoardState, EarlierKeep } from '../../shared/workbench/contract.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { clockTime, dayTime } from '../log/clock-time.ts';

const DAY_MS = 86_400_000;
const DAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/** Heading over the copies of a time, by the calendar of this computer; weeks begin on Monday. */
export function spanOf(iso: string, now: Date): 'Today' | 'Yesterday' | 'This week' | 'Last week' | 'Before that' {
  const days = dayNumber(now) - dayNumber(new Date(iso));
  const sinceMonday = (now.getDay() + 6) % 7;
  if (days <= 0) return 'Today';
  if (days === 1) return 'Yesterday';
  if (days <= sinceMonday) return 'This week';
  return days <= sinceMonday + 7 ? 'Last week' : 'Before that';
}

/** `19:02`, `Wednesday 19:02`, `4 Nov 19:02`, the last two with the year where it is another one. */
export function momentOf(iso: string, now: Date): string {
  const at = new Date(iso);
  const clock = clockTime(iso).slice(0, 5);
  switch (spanOf(iso, now)) {
    case 'Today':
    case 'Yesterday':
      return clock;
    case 'This week':
    case 'Last week':
      return `${DAYS[at.getDay()]} ${clock}`;
    case 'Before that':
      return at.getFullYear() === now.getFullYear() ? dayTime(iso) : `${dayTime(iso)}, ${at.getFullYear()}`;
  }
}

const MOST_NAMED = 5;

/** What is another now: `High Street green 18.0 s, now 20.0 s`, one a line. */
export function changeLines({ isNow, changes, match, layout }: EarlierKeep): string[] {
  if (changes === null) {
    return [
      match === 'other'
        ? `A table of ${layout || 'another layout'}.`
        : 'What differs is known when the board runs this layout.',
    ];
  }
  if (changes.length === 0) return [isNow ? 'It runs as kept.' : 'The same times as run now.'];
  const named = changes.slice(0, MOST_NAMED).map(({ name, was, now }) => {
    return `${name} ${timeText(was)}, ${now === null ? 'there no more' : `now ${timeText(now)}`}`;
  });
  const more = changes.length - named.length;
  return more > 0 ? [...named, more === 1 ? 'and one time more' : `and ${more} times more`] : named;
}

/** `41 times, sent 12 tables; the memory is made for 100,000 writes`. */
export function wearWords({ keeps, sends, madeFor }: NonNullable<BoardState['wear']>): string {
  const kept = keeps === 1 ? 'once' : `${grouped(keeps)} times`;
  const sent = sends === 0 ? '' : `, sent ${sends === 1 ? 'one table' : `${grouped(sends)} tables`}`;
  return `${kept}${sent}; the memory is made for ${grouped(madeFor)} writes`;
}

export const WEAR_HINT =
  'Each keep and each table sent writes no byte of the memory more than once on the average. ' +
  'What other computers sent is not counted.';

function grouped(value: number): string {
  return String(value).replace(/\B(?=(\d{3})+$)/g, ',');
}

function dayNumber(at: Date): number {
  return Date.UTC(at.getFullYear(), at.getMonth(), at.getDate()) / DAY_MS;
}
