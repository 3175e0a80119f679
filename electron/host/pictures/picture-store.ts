/** Pictures that lie under plans, each under the SHA-256 of its bytes in one folder of the data of this computer. */
import { closeSync, constants, fstatSync, mkdirSync, openSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { digestOf } from '../digest.ts';
import { writeWhole } from '../whole-file.ts';
import { kindOf, type PictureKind } from './kind.ts';

/** 10 MB: a photo as cameras and telephones take it. */
export const MOST_BYTES = 10_000_000;
/** Larger ones would take more memory than a small computer has when they are drawn. */
export const MOST_PIXELS = 100_000_000;

const EXTENSIONS: readonly PictureKind['extension'][] = ['png', 'jpg', 'webp'];

export type Kept =
  | { readonly is: 'kept'; readonly id: string; readonly width: number; readonly height: number }
  | { readonly is: 'noPicture' | 'tooLarge' }
  | { readonly is: 'notWritten'; readonly why: string };

export interface Found {
  readonly type: PictureKind['type'];
  readonly bytes: Buffer;
}

export class PictureStore {
  private readonly folder: string | null;

  /** `folder` is made when something is kept first; null: this host keeps none. */
  constructor(folder: string | null) {
    this.folder = folder;
  }

  keep(bytes: Buffer): Kept {
    if (bytes.byteLength > MOST_BYTES) return { is: 'tooLarge' };
    const kind = kindOf(bytes);
    if (!kind) return { is: 'noPicture' };
    const { width, height, extension } = kind;
    if (width * height > MOST_PIXELS) return { is: 'tooLarge' };
    const id = digestOf(bytes);
    if (this.folder === null) return { is: 'notWritten', why: 'This host keeps no pictures.' };
    try {
      mkdirSync(this.folder, { recursive: true });
      writeWhole(join(this.folder, `${id}.${extension}`), bytes);
    } catch (error) {
      return { is: 'notWritten', why: (error as Error).message };
    }
    return { is: 'kept', id, width, height };
  }

  /** Null when it is not here, or is no longer what its name says. */
  find(id: string): Found | null {
    if (this.folder === null || !/^[0-9a-f]{64}$/.test(id)) return null;
    for (const extension of EXTENSIONS) {
      const bytes = readPlain(join(this.folder, `${id}.${extension}`));
      const kind = bytes && digestOf(bytes) === id ? kindOf(bytes) : null;
      if (bytes && kind) return { type: kind.type, bytes };
    }
    return null;
  }
}

/** A file of its own and of a sensible size; never what a link leads to. */
function readPlain(file: string): Buffer | null {
  try {
    // Windows has no such flag, and no links without being asked.
    const handle = openSync(file, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
    try {
      const { size } = fstatSync(handle);
      const isFile = fstatSync(handle).isFile();
      return isFile && size <= MOST_BYTES ? readFileSync(handle) : null;
    } finally {
      closeSync(handle);
    }
  } catch {
    return null;
  }
}
