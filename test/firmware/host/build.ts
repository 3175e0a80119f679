/**
 * Builds the firmware's core for the host, unchanged, with a board made of
 * arrays (hal.c) and a harness (harness.c, whose head comment documents its
 * commands and output), under the address and undefined-behaviour sanitizers.
 */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { Chip } from '../../../shared/table/format.ts';
import { listed } from '../../fixtures/built-once.ts';

const run = promisify(execFile);
const here = fileURLToPath(new URL('.', import.meta.url));
const core = fileURLToPath(new URL('../../../firmware/core/', import.meta.url));
const cache = fileURLToPath(new URL('../../../node_modules/.cache/amberwick-host/', import.meta.url));

const FLAGS = ['-std=gnu11', '-O2', '-g', '-Wall', '-Wextra', '-Werror'];
const SANITIZERS = ['-fsanitize=address,undefined', '-fno-sanitize-recover=all'];

export interface HostOptions {
  readonly chip?: Chip;
  /** Default true; without them runs are several times faster. */
  readonly sanitize?: boolean;
  /** Version of the store, that of the firmware by default; its steps stand in versions/. */
  readonly store?: number;
}

/**
 * Path of the executable; built when its sources, flags or options have
 * changed. Needs gcc and binutils.
 */
export async function buildHostCore(options: HostOptions = {}): Promise<string> {
  const chip = options.chip ?? 'atmega328p';
  const sanitizers = (options.sanitize ?? true) ? SANITIZERS : [];
  const version = options.store === undefined ? [] : [`-DSTORE_VERSION=${options.store}`];
  const flags = [...FLAGS, ...sanitizers, ...version, `-DCHIP_${chip.toUpperCase()}`, `-I${core}`, `-I${here}`];
  const versions = options.store === undefined ? [] : listed(join(here, 'versions'), '.c');
  const hash = createHash('sha256').update(flags.join(' '));
  for (const path of [
    ...listed(core, '.c'),
    ...listed(core, '.h'),
    ...listed(here, '.c'),
    ...listed(here, '.h'),
    ...listed(here, '.ts'),
    ...versions,
  ])
    hash.update(readFileSync(path));
  const path = join(cache, `${chip}-${hash.digest('hex').slice(0, 16)}`);
  if (existsSync(path)) return path;
  mkdirSync(cache, { recursive: true });
  const scratch = mkdtempSync(join(cache, 'build-'));
  try {
    const objects = listed(core, '.c').map((source, i) => [source, join(scratch, `${i}.o`)] as const);
    for (const [source, object] of objects) await run('gcc', [...flags, '-c', source, '-o', object]);
    const whole = join(scratch, 'core.o');
    await run('ld', ['-r', ...objects.map(([, object]) => object), '-o', whole]);
    // Sections of their own, so that a power-on can set the core's variables as the start of a program does.
    await run('objcopy', ['--rename-section', '.data=core_data', '--rename-section', '.bss=core_bss', whole]);
    const made = join(scratch, 'host');
    await run('gcc', [...flags, ...listed(here, '.c'), ...versions, whole, '-o', made]);
    // Several test files may build at once: the last one wins, and all are the same.
    renameSync(made, path);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
  return path;
}
