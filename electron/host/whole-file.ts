/** Files that are on the disk whole or not at all, whatever happens meanwhile. */
import { closeSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The process that writes is part of the name, so that two never write into one. */
const UNFINISHED = /\.(\d+)\.part$/;

/** Throws what the system says when it cannot; the file is then what it was. */
export function writeWhole(file: string, content: string | Uint8Array): void {
  const beside = `${file}.${process.pid}.part`;
  try {
    const handle = openSync(beside, 'w');
    try {
      // Goes on after a short write, as a disk that is nearly full gives one.
      writeFileSync(handle, content);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
  syncFolder(dirname(file));
}

/** Takes away what processes that were killed have left half-written. A folder that is not there is no trouble. */
export function sweepUnfinished(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      const [, process] = UNFINISHED.exec(name) ?? [];
      if (process && !isAlive(Number(process))) rmSync(join(folder, name), { force: true });
    }
  } catch {
    // They only take up room.
  }
}

/** The new name is on the disk, too. Windows has no such thing; its renames are in the file system's own log. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    // The contents are safe; after a power cut the old file may be found instead.
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
