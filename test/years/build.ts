/** Builds years.c with the unchanged core and the board made of arrays, for speed: no sanitizers, they watch elsewhere. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Chip } from '../../shared/table/format.ts';

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const [here, host, core] = [folder('.'), folder('../firmware/host/'), folder('../../firmware/core/')];
const cache = folder('../../node_modules/.cache/amberwick-years/');

/** Path of the executable; built when a source has changed. Needs gcc. */
export function buildYears(chip: Chip): string {
  const headers = [core, host].flatMap((from) => listed(from, '.h'));
  const sources = [...listed(core, '.c'), `${host}hal.c`, `${here}years.c`];
  const flags = ['-std=gnu11', '-O3', '-flto', '-Wall', '-Wextra', '-Werror', `-DCHIP_${chip.toUpperCase()}`];
  const hash = createHash('sha256').update(flags.join(' '));
  for (const path of [...headers, ...sources]) hash.update(readFileSync(path));
  const made = `${cache}${chip}-${hash.digest('hex').slice(0, 16)}`;
  if (existsSync(made)) return made;
  mkdirSync(cache, { recursive: true });
  const scratch = `${made}.${process.pid}`;
  execFileSync('gcc', [...flags, `-I${core}`, `-I${host}`, ...sources, '-o', scratch]);
  renameSync(scratch, made);
  return made;
}

function listed(from: string, ending: string): string[] {
  return readdirSync(from)
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => from + name);
}
