/** The EEPROM of a virtual board between two runs of the app. */
import { mkdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { sweepUnfinished, writeWhole } from '../whole-file.ts';

/** Null when there is no such file yet. */
export function loadEeprom(file: string): Uint8Array | null {
  sweepUnfinished(dirname(file));
  try {
    return new Uint8Array(readFileSync(file));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

/** A crash or a power cut leaves the old contents or the new, whole. Throws what the system says when it cannot. */
export function saveEeprom(file: string, contents: Uint8Array): void {
  mkdirSync(dirname(file), { recursive: true });
  writeWhole(file, contents);
}
