/** Files that are on the disk whole or not at all, whatever happens meanwhile. */
import { closeSync, fsyncSync, openSync, renameSync, writeSync } from 'node:fs';

/** Throws what the system says when it cannot. */
export function writeWhole(file: string, text: string): void {
  const beside = `${file}.${process.pid}.part`;
  const handle = openSync(beside, 'w');
  try {
    writeSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(beside, file);
}
