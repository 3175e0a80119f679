/** The fuzz target as a program: with a compiler that every computer has, for replays; with a fuzzer, to find new inputs. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Chip } from '../../shared/table/format.ts';
import { buildProgram, SANITIZERS } from './build.ts';
import { townsFile } from './towns.ts';

export const CHIP: Chip = 'atmega328p';

const here = fileURLToPath(new URL('.', import.meta.url));
const target = ['acts.c', 'feed.c', 'target.c', 'towns.c'].map((name) => join(here, name));
/** One input a line, hexadecimal; the smallest set that reaches what has been reached. */
const KEPT = join(here, 'corpus/kept.hex');

/** Plays inputs; gcc. */
export function buildReplay(): string {
  const sources = [...target, join(here, 'replay.c')];
  return buildProgram({ name: 'replay', chip: CHIP, sources, flags: SANITIZERS });
}

/** Looks for inputs, guided by coverage; clang with libFuzzer. */
export function buildFuzzer(): string {
  const flags = [...SANITIZERS, '-fsanitize=fuzzer-no-link'];
  const link = ['-fsanitize=fuzzer'];
  return buildProgram({ name: 'fuzzer', chip: CHIP, sources: target, compiler: 'clang', flags, link });
}

/** Counts the lines and branches that inputs reach; clang. */
export function buildCounter(): string {
  const flags = ['-fprofile-instr-generate', '-fcoverage-mapping'];
  const sources = [...target, join(here, 'replay.c')];
  return buildProgram({ name: 'counter', chip: CHIP, sources, compiler: 'clang', flags });
}

/** Writes what the programs read into a folder: the towns, and each kept input as a file. */
export function unpack(folder: string): { readonly env: NodeJS.ProcessEnv; readonly corpus: string } {
  const corpus = join(folder, 'corpus');
  mkdirSync(corpus, { recursive: true });
  for (const [index, line] of readFileSync(KEPT, 'utf8').split('\n').entries()) {
    if (line !== '') writeFileSync(join(corpus, String(index).padStart(4, '0')), Buffer.from(line, 'hex'));
  }
  const towns = join(folder, 'towns.bin');
  writeFileSync(towns, townsFile(CHIP));
  return { env: { ...process.env, AMBERWICK_TOWNS: towns }, corpus };
}

/** Keeps the inputs of a folder, shortest first. */
export function pack(folder: string): number {
  const inputs = readdirSync(folder).map((name) => readFileSync(join(folder, name)).toString('hex').toUpperCase());
  const inOrder = inputs.sort((a, b) => a.length - b.length || (a < b ? -1 : 1));
  writeFileSync(KEPT, `${inOrder.join('\n')}\n`);
  return inOrder.length;
}
