/** Board images side by side: what a board runs or keeps, against what the open layout wants. */
import { dialOffsets, imageShape } from '../../../shared/table/shape.ts';
import { imageStructure } from '../../../shared/table/structure.ts';
import { encodeTime, timeAt } from '../../../shared/table/time.ts';
import type { TableMatch } from '../../../shared/workbench/contract.ts';

export interface Comparison {
  readonly match: TableMatch;
  /** Dials of the board's image by site, ms; null unless match is same or times. */
  readonly dials: readonly (readonly number[])[] | null;
}

/** `found` is undefined while nothing is known, null where the board has no table. */
export function compareImages(found: Uint8Array | null | undefined, wanted: Uint8Array | null): Comparison {
  if (found === undefined) return { match: 'unknown', dials: null };
  if (found === null) return { match: 'none', dials: null };
  if (wanted === null || !hasSameRows(found, wanted)) return { match: 'other', dials: null };
  const isSame = sameImage(found, wanted);
  return { match: isSame ? 'same' : 'times', dials: dialsOf(found) };
}

/** The two do the same in the same order; times and their limits apart. */
function hasSameRows(image: Uint8Array, other: Uint8Array): boolean {
  const structure = structureOf(image);
  return structure !== null && structure === structureOf(other);
}

/** Other limits, or another delay of the start, which no single dial can change: only sending does. */
export function needsSending(found: Uint8Array | null | undefined, wanted: Uint8Array | null): boolean {
  return found != null && wanted !== null && imageShape(found) !== imageShape(wanted);
}

// Each board tells its state many times between two changes of its images.
const structures = new WeakMap<Uint8Array, string | null>();

function structureOf(image: Uint8Array): string | null {
  const known = structures.get(image);
  if (known !== undefined) return known;
  const structure = imageStructure(image);
  structures.set(image, structure);
  return structure;
}

export function sameImage(image: Uint8Array, other: Uint8Array | null | undefined): boolean {
  return image.length === other?.length && image.every((byte, at) => byte === other[at]);
}

/** Dials of an image by site, ms; null when it is no image. */
export function dialsOf(image: Uint8Array): number[][] | null {
  return dialOffsets(image)?.sites.map((site) => site.map((at) => timeAt(image, at))) ?? null;
}

export function siteCount(image: Uint8Array | null | undefined): number {
  return (image && dialOffsets(image)?.sites.length) || 0;
}

/** First site number that means the cycle of a group (firmware/PROTOCOL.md, word `dial`). */
const GROUPS = 128;

/** The image with one dial, or the cycle of group `site - 128`, at another value that the board has confirmed. */
export function withDial(image: Uint8Array, site: number, dial: number, ms: number): Uint8Array {
  const at = placeOf(image, site, dial);
  const word = encodeTime(ms);
  if (at === undefined || word === null) return image;
  const changed = image.slice();
  changed[at] = word & 0xff;
  changed[at + 1] = word >> 8;
  return changed;
}

/** Null when there is no such dial. */
export function dialIn(image: Uint8Array, site: number, dial: number): number | null {
  const at = placeOf(image, site, dial);
  return at === undefined ? null : timeAt(image, at);
}

function placeOf(image: Uint8Array, site: number, dial: number): number | undefined {
  const offsets = dialOffsets(image);
  return site < GROUPS ? offsets?.sites[site]?.[dial] : dial === 0 ? offsets?.groups[site - GROUPS] : undefined;
}
