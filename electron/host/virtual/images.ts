/** The firmware images that the app ships. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Chip } from '../../../shared/table/format.ts';
import { CHIPS } from './chips.ts';
import { parseHex } from './hex.ts';

const FOLDER = new URL('../../../firmware/images/', import.meta.url);

/** What the manifest says about the image of one chip. */
export interface ShippedImage {
  readonly file: string;
  /** Of the file, 64 hexadecimal digits. */
  readonly sha256: string;
  readonly firmware: string;
  readonly protocol: number;
  /** Version of the store that it writes; older ones it brings up to date. */
  readonly store: number;
  /** Addresses by name: RAM as data addresses, functions as byte addresses in flash. */
  readonly symbols: Readonly<Record<string, number>>;
}

export type LoadedImage =
  | { readonly ok: true; readonly flash: Uint8Array; readonly shipped: ShippedImage }
  | { readonly ok: false; readonly error: string };

/** Reads the image of a chip and checks it against the manifest. */
export function loadImage(chip: Chip): LoadedImage {
  try {
    const manifest = JSON.parse(readFileSync(new URL('manifest.json', FOLDER), 'utf8'));
    const shipped: ShippedImage | undefined = manifest.chips?.[chip];
    if (!shipped) return { ok: false, error: `the manifest names no image for the ${chip}` };
    const file = readFileSync(new URL(shipped.file, FOLDER));
    const sha256 = createHash('sha256').update(file).digest('hex');
    if (sha256 !== shipped.sha256)
      return { ok: false, error: `${shipped.file} is not the file that the manifest names` };
    const parsed = parseHex(file.toString('latin1'), CHIPS[chip].flashBytes);
    return parsed.ok
      ? { ok: true, flash: parsed.bytes, shipped }
      : { ok: false, error: `${shipped.file}, ${parsed.error}` };
  } catch (error) {
    return { ok: false, error: error instanceof Error ? error.message : String(error) };
  }
}
