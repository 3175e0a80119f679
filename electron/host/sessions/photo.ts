/**
 * Where a photo is, as the log notes it. The file is never looked at: that it is there, and a photo, is the person's
 * word and the end of its name.
 */
import { posix, win32 } from 'node:path';
import { fileURLToPath } from 'node:url';

const PICTURE = /\.(jpe?g|png|webp|gif|avif|hei[cf]|tiff?|bmp|dng|raw|arw|cr[23]|nef|orf|raf|rw2|svg|mov|mp4|webm)$/i;

export interface NotedPhoto {
  /** Below the layout's folder with `/`, else as the system writes it. */
  readonly path: string;
  /** `layout`: below the folder of the layout's file; `name`: only its name was told. */
  readonly from: 'layout' | 'computer' | 'name';
}

/** Null for what is no path of a photo. `layoutFolder`: of the open layout's file, null where it has none. */
export function notedPhoto(told: string, layoutFolder: string | null, platform: NodeJS.Platform): NotedPhoto | null {
  const path = plainPath(told);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what must not be in it
  if (path === null || /[\x00-\x1f\x7f]/.test(path) || !PICTURE.test(path)) return null;
  const ways = platform === 'win32' ? win32 : posix;
  const isName = !path.includes('/') && !(platform === 'win32' && path.includes('\\'));
  if (isName) return { path, from: 'name' };
  if (!ways.isAbsolute(path) && (layoutFolder === null || path.startsWith('~'))) return { path, from: 'computer' };
  const whole = layoutFolder === null ? ways.normalize(path) : ways.resolve(layoutFolder, path);
  const below = layoutFolder === null ? null : ways.relative(layoutFolder, whole);
  const isInside = below !== null && below !== '' && !ways.isAbsolute(below) && below.split(ways.sep)[0] !== '..';
  return isInside ? { path: below.split(ways.sep).join('/'), from: 'layout' } : { path: whole, from: 'computer' };
}

/** As people paste it: with quotes around it, or as an address of a file. */
function plainPath(told: string): string | null {
  const bare = told.trim().replace(/^(["'])(.*)\1$/, '$2');
  if (!/^file:/i.test(bare)) return bare;
  try {
    return fileURLToPath(bare);
  } catch {
    return null;
  }
}

/** The line of the log. */
export function photoText({ path }: NotedPhoto, caption: string): string {
  return caption === '' ? `Photo ${path}.` : `Photo ${path}: ${caption}`;
}
