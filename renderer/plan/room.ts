/** How large symbols may be for sites not to run into each other. */
import type { Ground } from './ground.ts';
import type { SiteMarks } from './marks.ts';
import { type Box, boxOf, overlap } from './shapes.ts';

/** From one size that is tried to the next. */
const SMALLER = 0.94;
/** Below this share of what is wanted letters could not be read: then rather an overlap. */
const LEAST = 0.5;

/**
 * Largest radius of a lamp, mm, up to `most`, at which no symbol of a site covers
 * one of another or stands over the edge of the baseboard.
 */
export function roomFor(marksAt: (r: number) => readonly SiteMarks[], ground: Ground, most: number): number {
  for (let r = most; r > most * LEAST; r *= SMALLER) {
    const boxes = marksAt(r).map(({ heads }) => heads.map((head) => boxOf(head, r)));
    const isFree = boxes.every(
      (own, at) =>
        own.every((box) => inside(box, ground)) &&
        boxes.slice(at + 1).every((others) => own.every((a) => others.every((b) => overlap(a, b) === 0))),
    );
    if (isFree) return r;
  }
  return most * LEAST;
}

function inside({ left, top, right, bottom }: Box, { width, depth }: Ground): boolean {
  return left >= 0 && top >= 0 && right <= width && bottom <= depth;
}
