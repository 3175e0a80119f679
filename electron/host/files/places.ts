/** Where layouts are kept, and how a folder is told to a person. */
import { existsSync } from 'node:fs';
import { join, sep } from 'node:path';

export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly home: string;
  readonly exists?: (path: string) => boolean;
}

/** `AMBERWICK_LAYOUTS` wins; else `Amberwick` in the home folder's Documents where there are some, else in the home folder. */
export function layoutsFolder({ env, home, exists = existsSync }: Surroundings): string {
  if (env.AMBERWICK_LAYOUTS) return env.AMBERWICK_LAYOUTS;
  const documents = join(home, 'Documents');
  return join(exists(documents) ? documents : home, 'Amberwick');
}

/** The home folder is `~`, as people know it. */
export function folderText(folder: string, home: string): string {
  if (folder === home) return '~';
  return folder.startsWith(home + sep) ? `~${folder.slice(home.length)}` : folder;
}
