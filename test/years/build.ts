/** Builds years.c with the unchanged core and the board made of arrays, for speed: no sanitizers, they watch elsewhere. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Chip } from '../../shared/table/format.ts';
import { builtOnce, listed } from '../fixtures/built-once.ts';

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const [here, host, core] = [folder('.'), folder('../firmware/host/'), folder('../../firmware/core/')];

/** Path of the executable; built when a source has changed. Needs gcc. */
export function buildYears(chip: Chip): string {
  const headers = [core, host].flatMap((from) => listed(from, '.h'));
  const sources = [...listed(core, '.c'), `${host}hal.c`, `${here}years.c`];
  const flags = ['-std=gnu11', '-O3', '-flto', '-Wall', '-Wextra', '-Werror', `-DCHIP_${chip.toUpperCase()}`];
  const from = { folder: 'amberwick-years', name: chip, words: flags, sources: [...headers, ...sources] };
  return builtOnce(from, (made) => {
    execFileSync('gcc', [...flags, `-I${core}`, `-I${host}`, ...sources, '-o', made]);
  });
}
