/** Parts of electron-builder that it does not hand out itself, found from where it finds them. */
import { createRequire } from 'node:module';
import type { Configuration } from 'electron-builder';

const here = createRequire(import.meta.url);
const inBuilder = createRequire(here.resolve('electron-builder'));
const inLibrary = createRequire(inBuilder.resolve('app-builder-lib'));
const { DebugLogger } = inLibrary('builder-util');
const { validateConfiguration } = inLibrary('app-builder-lib/out/util/config/config.js');

/** Rejects what the schema of electron-builder does not allow. */
export function checkConfiguration(config: unknown): Promise<void> {
  return validateConfiguration(config as Configuration, new DebugLogger(false));
}

interface Archives {
  /** Into a folder, with the files that lie beside the archive. */
  extractAll(archive: string, folder: string): void;
  statFile(archive: string, name: string): { readonly unpacked?: boolean };
}

export const archives: Archives = inLibrary('@electron/asar');
