/**
 * Builds a program of ours around the unchanged core and the board made of arrays, so that it can start the core anew as
 * often as it likes (restart.h): the core's variables lie in sections of their own.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Chip } from '../../shared/table/format.ts';
import { builtOnce, listed } from '../fixtures/built-once.ts';

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const [here, host, core] = [folder('.'), folder('../firmware/host/'), folder('../../firmware/core/')];
const CACHE = 'amberwick-fuzz';

export interface BuildOptions {
  readonly name: string;
  readonly chip: Chip;
  /** Our C files, absolute. */
  readonly sources: readonly string[];
  readonly compiler?: 'gcc' | 'clang';
  /** For all files; the linker gets them too. */
  readonly flags?: readonly string[];
  /** For the linker only. */
  readonly link?: readonly string[];
}

export const SANITIZERS = ['-fsanitize=address,undefined', '-fno-sanitize-recover=all'];
/** Files that every such program has: the start of the core anew, and what must be so. */
export const WATCH = [join(here, 'restart.c'), join(here, 'watch.c')];

/** Path of the executable; built when a source or a flag has changed. Throws when the compiler refuses. */
export function buildProgram(options: BuildOptions): string {
  const { name, chip, sources, link = [] } = options;
  const { compiler, flags } = settings(options);
  const core = coreObject(options);
  const ours = [join(host, 'hal.c'), ...WATCH, ...sources];
  const words = [core, compiler, ...flags, ...link];
  const from = { folder: CACHE, name: `${name}-${chip}`, words, sources: [...headers(), ...ours] };
  return builtOnce(from, (made) => {
    // A table that starts arranges the pins: that is where we look at what has been loaded.
    const wrap = ['-Wl,--wrap=hal_pins_begin', ...link];
    run(compiler, [...flags, ...ours, core, ...wrap, '-o', made]);
  });
}

/** The whole core as one object, its variables in sections of their own; programs with the same settings share it. */
function coreObject(options: BuildOptions): string {
  const { compiler, flags } = settings(options);
  const sources = listed(core, '.c');
  const words = [compiler, ...flags];
  const from = {
    folder: CACHE,
    name: `core-${options.chip}`,
    ending: '.o',
    words,
    sources: [...headers(), ...sources],
  };
  return builtOnce(from, (made) => {
    const scratch = mkdtempSync(`${made}-`);
    const objects = sources.map((source, i) => [source, join(scratch, `${i}.o`)] as const);
    for (const [source, object] of objects) run(compiler, [...flags, '-c', source, '-o', object]);
    run('ld', ['-r', ...objects.map(([, object]) => object), '-o', made]);
    run('objcopy', ['--rename-section', '.data=core_data', '--rename-section', '.bss=core_bss', made]);
    rmSync(scratch, { recursive: true, force: true });
  });
}

function settings({ chip, compiler = 'gcc', flags = [] }: BuildOptions) {
  const includes = [`-I${core}`, `-I${host}`, `-I${here}`];
  const common = ['-std=gnu11', '-O2', '-g', '-Wall', '-Wextra', '-Werror'];
  return { compiler, flags: [...common, ...flags, `-DCHIP_${chip.toUpperCase()}`, ...includes] };
}

function headers(): string[] {
  return [core, host, here].flatMap((from) => listed(from, '.h'));
}

function run(program: string, args: readonly string[]): void {
  execFileSync(program, args, { stdio: 'pipe' });
}
