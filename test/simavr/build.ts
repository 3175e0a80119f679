/** Builds rig.c with libsimavr (a Debian package; scripts/setup/tools.mjs installs it). */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const source = fileURLToPath(new URL('rig.c', import.meta.url));
const cache = fileURLToPath(new URL('../../node_modules/.cache/amberwick-simavr/', import.meta.url));
// The library's headers name each other without their folder.
const FLAGS = ['-std=gnu11', '-O2', '-Wall', '-Wextra', '-Werror', '-I/usr/include/simavr'];

/** Path of the executable; built when the source has changed. Needs gcc and libsimavr. */
export function buildRig(): string {
  const hash = createHash('sha256').update(FLAGS.join(' ')).update(readFileSync(source)).digest('hex');
  const made = `${cache}rig-${hash.slice(0, 16)}`;
  if (existsSync(made)) return made;
  mkdirSync(cache, { recursive: true });
  const scratch = `${made}.${process.pid}`;
  execFileSync('gcc', [...FLAGS, source, '-o', scratch, '-lsimavr', '-lm']);
  renameSync(scratch, made);
  return made;
}
