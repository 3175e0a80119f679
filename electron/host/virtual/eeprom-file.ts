/** The EEPROM of a virtual board between two runs of the app. */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

/** Null when there is no such file yet. */
export function loadEeprom(file: string): Uint8Array | null {
  try {
    return new Uint8Array(readFileSync(file));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

/** Writes beside the file and renames, so that a crash leaves the old or the new contents. */
export function saveEeprom(file: string, contents: Uint8Array): void {
  mkdirSync(dirname(file), { recursive: true });
  const beside = `${file}.${process.pid}.part`;
  writeFileSync(beside, contents);
  renameSync(beside, file);
}
