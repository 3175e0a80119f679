/**
 * The last line of a session that was killed in the middle of writing it. Nobody was told of that line; half of it
 * would only keep others from reading the file, so it is taken off.
 */
import { closeSync, fstatSync, ftruncateSync, openSync, readdirSync, readSync } from 'node:fs';
import { join } from 'node:path';

/** Sessions looked at, the newest: older ones have been looked at before. */
const SESSIONS = 4;
/** A line that another process is writing just now is whole after this, ms. */
const WHOLE_AFTER_MS = 20;
const NEWLINE = 0x0a;
/** Longer than any line, bytes. */
const LONGEST = 1 << 20;

/** Never throws: a file that cannot be mended stays as it is. */
export function mendLogs(folder: string): void {
  try {
    const names = readdirSync(folder).filter((name) => name.endsWith('.jsonl'));
    for (const name of names.sort().slice(-SESSIONS)) mend(join(folder, name));
  } catch {
    // No folder yet, or none that can be read.
  }
}

function mend(file: string): void {
  const handle = openSync(file, 'r+');
  try {
    const { size } = fstatSync(handle);
    const whole = wholeLines(handle, size);
    if (whole === size) return;
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, WHOLE_AFTER_MS);
    if (fstatSync(handle).size === size) ftruncateSync(handle, whole);
  } finally {
    closeSync(handle);
  }
}

/** Bytes up to the last newline. */
function wholeLines(handle: number, size: number): number {
  const from = Math.max(0, size - LONGEST);
  const tail = new Uint8Array(size - from);
  readSync(handle, tail, 0, tail.length, from);
  const at = tail.lastIndexOf(NEWLINE);
  return at < 0 ? from : from + at + 1;
}
