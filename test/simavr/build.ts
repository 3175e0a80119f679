/** Builds rig.c with libsimavr (a Debian package; scripts/setup/tools.mjs installs it). */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { builtOnce } from '../fixtures/built-once.ts';

const source = fileURLToPath(new URL('rig.c', import.meta.url));
// The library's headers name each other without their folder.
const FLAGS = ['-std=gnu11', '-O2', '-Wall', '-Wextra', '-Werror', '-I/usr/include/simavr'];

/** Path of the executable; built when the source has changed. Needs gcc and libsimavr. */
export function buildRig(): string {
  return builtOnce({ folder: 'amberwick-simavr', name: 'rig', words: FLAGS, sources: [source] }, (made) => {
    execFileSync('gcc', [...FLAGS, source, '-o', made, '-lsimavr', '-lm']);
  });
}
