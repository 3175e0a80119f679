/** The firmware that this app ships, and how a board's compares with it. */
import type { Who } from '../../../shared/link/requests.ts';
import type { Chip } from '../../../shared/table/format.ts';
import type { FirmwareMatch } from '../../../shared/workbench/contract.ts';
import { type LoadedImage, loadImage } from '../virtual/images.ts';

export interface ShippedFirmware {
  /** Contents of the flash from address 0. */
  readonly flash: Uint8Array;
  /** Three numbers with dots. */
  readonly version: string;
}

/** Null when the image cannot be read or is not the one that the manifest names. */
export type ShippedImages = (chip: Chip) => ShippedFirmware | null;

const read = new Map<Chip, LoadedImage>();

export const shippedImages: ShippedImages = (chip) => {
  const image = read.get(chip) ?? loadImage(chip);
  // One that could not be read is tried again: the disk may have been away.
  if (!image.ok) return null;
  read.set(chip, image);
  return { flash: image.flash, version: image.shipped.firmware };
};

export interface Met {
  readonly who: Who | null;
  /** Code of the problem that the last greeting ended with. */
  readonly problem: string | null;
}

/** A board that was met with one of these has no firmware of ours, or only a part of it. */
export const BARE: readonly (string | null)[] = [
  'noAnswer',
  'foreignFirmware',
  'firmwareBroken',
  'firmwareEmptied',
  'firmwareDiffers',
];

export function firmwareMatch({ who, problem }: Met, shipped: string | null): FirmwareMatch {
  if (BARE.includes(problem)) return 'none';
  if (problem === 'protocolOld') return 'older';
  if (problem === 'protocolNew') return 'newer';
  if (!who || shipped === null) return 'unknown';
  const order = compareVersions(who.firmware, shipped);
  return order === 0 ? 'same' : order < 0 ? 'older' : 'newer';
}

/** From this firmware on a board measures, lights a lamp for a time, and has a guard (firmware/PROTOCOL.md, words). */
const NEW_WORDS_SINCE = '1.2.0';

/** Nobody known counts as older. */
export function knowsNewWords(who: Met['who']): boolean {
  return who !== null && compareVersions(who.firmware, NEW_WORDS_SINCE) >= 0;
}

/** Negative when `a` is the older one. What is missing or no number counts as 0. */
export function compareVersions(a: string, b: string): number {
  const [left, right] = [numbers(a), numbers(b)];
  for (let at = 0; at < Math.max(left.length, right.length); at++) {
    const difference = (left[at] ?? 0) - (right[at] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

function numbers(version: string): number[] {
  return version.split('.').map((part) => Number.parseInt(part, 10) || 0);
}
