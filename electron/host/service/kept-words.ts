/** Kept tables in words: their times by name, and what differs between two of them. */
import type { EarlierKeep } from '../../../shared/workbench/contract.ts';
import { timeText } from '../../../shared/workbench/words.ts';
import type { NamedTime } from '../book/board-book.ts';
import type { BoardPlan } from './document.ts';
import { compareImages, dialIn } from './images.ts';
import { dialName } from './sentences.ts';

/** The times of an image by the names of the open layout; null where the image is not of that layout. */
export function namedDials(plan: BoardPlan, image: Uint8Array): NamedTime[] | null {
  const { dials } = compareImages(image, plan.image?.bytes ?? null);
  if (!dials) return null;
  const sites = dials.flatMap((row, site) => row.map((ms, dial) => ({ name: dialName(plan, site, dial), ms })));
  const groups = (plan.compiled?.table.groups ?? []).flatMap((_, group) => {
    const ms = dialIn(image, 128 + group, 0);
    return ms === null ? [] : [{ name: dialName(plan, 128 + group, 0), ms }];
  });
  return [...sites, ...groups];
}

/** Times that are others now, or are there no more; null where either is not known by name. */
export function changesSince(then: readonly NamedTime[], now: readonly NamedTime[] | null): EarlierKeep['changes'] {
  if (!now || then.length === 0) return null;
  const times = new Map(now.map(({ name, ms }) => [name, ms]));
  return then.flatMap(({ name, ms }) =>
    times.get(name) === ms ? [] : [{ name, was: ms, now: times.get(name) ?? null }],
  );
}

const MOST_NAMED = 6;

/** "Market Cross green of Fore Street 18.0 s, Harbour Crossing lit 0.5 s". */
export function changedBack(changes: NonNullable<EarlierKeep['changes']>): string {
  const named = changes.slice(0, MOST_NAMED).map(({ name, was }) => `${name} ${timeText(was)}`);
  const more = changes.length - named.length;
  return [...named, ...(more > 0 ? [`${more} more`] : [])].join(', ');
}
