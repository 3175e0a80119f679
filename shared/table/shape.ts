/** What identifies an image, and where its times stand. */
import { crc16 } from './crc.ts';
import { walkImage } from './walk.ts';

/** CRC-16 of a whole image. */
export function imageCrc(bytes: Uint8Array): number {
  return crc16(bytes);
}

/** Byte offsets of the time words that can be changed on a running board. */
export interface DialOffsets {
  /** For each site the offset of each of its dials. */
  readonly sites: readonly (readonly number[])[];
  /** For each group the offset of its cycle. */
  readonly groups: readonly number[];
}

/** Where the dial words and cycle words of an image stand; null when it is no image. */
export function dialOffsets(bytes: Uint8Array): DialOffsets | null {
  const walk = walkImage(bytes);
  if (!walk.ok) return null;
  const sites = walk.places.sites.map((site) =>
    Array.from({ length: site.dials }, (_, dial) => site.dialsAt + 2 * dial),
  );
  return { sites, groups: walk.places.groups };
}

/**
 * The table hash: CRC-16 over the image without the words of `dialOffsets`.
 * Images of equal shape differ in times only. Null when it is no image.
 */
export function imageShape(bytes: Uint8Array): number | null {
  const offsets = dialOffsets(bytes);
  if (!offsets) return null;
  const words = new Set([...offsets.sites.flat(), ...offsets.groups].flatMap((at) => [at, at + 1]));
  return crc16(bytes.filter((_, at) => !words.has(at)));
}
