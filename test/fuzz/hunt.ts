/** Lets the fuzzer run until so many bytes have gone to the core, in rounds, and says what has been reached. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildCounter, buildFuzzer, unpack } from './programs.ts';

const core = fileURLToPath(new URL('../../firmware/core/', import.meta.url));
/** Inputs of a round. */
const ROUND = 40_000;

export interface Hunted {
  readonly bytes: number;
  readonly inputs: number;
  readonly seconds: number;
  /** Edges of the program's graph, and features, as the fuzzer counts them. */
  readonly edges: number;
  readonly features: number;
}

export interface HuntOptions {
  readonly folder: string;
  readonly bytes: number;
  readonly seed: number;
  readonly progress?: (hunted: Hunted) => void;
}

/** Throws with the fuzzer's own words when an input breaks a promise; it lies in the folder as `crash-...`. */
export async function hunt({ folder, bytes, seed, progress }: HuntOptions): Promise<Hunted> {
  const fuzzer = buildFuzzer();
  const { env, corpus } = unpack(folder);
  const found = join(folder, 'found');
  mkdirSync(found, { recursive: true });
  const begun = performance.now();
  const sum = { bytes: 0, inputs: 0, seconds: 0, edges: 0, features: 0 };
  for (let round = 0; sum.bytes < bytes; round++) {
    // By turns: short inputs first, as the fuzzer likes it, and of any length at once.
    const args = [`-seed=${seed + round}`, `-runs=${ROUND}`, '-max_len=2048', `-len_control=${round % 2 ? 0 : 100}`];
    const all = [...args, `-artifact_prefix=${folder}/`, '-timeout=20', '-rss_limit_mb=1024', found, corpus];
    const { status, stderr, stdout } = spawnSync(fuzzer, all, { env, encoding: 'utf8', maxBuffer: 1 << 28 });
    if (status !== 0) throw new Error(`${stdout.slice(-500)}\n${stderr.slice(-3000)}`);
    const [, fed = '0', inputs = '0'] = /fed (\d+) bytes in (\d+) inputs/.exec(stderr) ?? [];
    const reached = [...stderr.matchAll(/cov: (\d+) ft: (\d+)/g)].at(-1);
    sum.bytes += Number(fed);
    sum.inputs += Number(inputs);
    sum.edges = Math.max(sum.edges, Number(reached?.[1] ?? 0));
    sum.features = Math.max(sum.features, Number(reached?.[2] ?? 0));
    sum.seconds = Math.round((performance.now() - begun) / 1000);
    progress?.(sum);
    // What was told gets out before the next round takes all the time.
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return sum;
}

/** The found inputs that are needed to reach every edge that has been reached; the folder that has them. */
export function minimise(folder: string): string {
  const { env, corpus } = unpack(folder);
  const least = join(folder, 'least');
  rmSync(least, { recursive: true, force: true });
  mkdirSync(least);
  const args = ['-merge=1', '-use_counters=0', least, corpus, join(folder, 'found')];
  const { status, stderr } = spawnSync(buildFuzzer(), args, { env, encoding: 'utf8', maxBuffer: 1 << 28 });
  if (status !== 0) throw new Error(stderr.slice(-3000));
  return least;
}

/** What the inputs of a folder reach of firmware/core, as the coverage tool of the compiler sums it up. */
export function coverage(folder: string, inputs: string): { readonly lines: number; readonly branches: number } {
  const { env } = unpack(folder);
  const counter = buildCounter();
  const [raw, data] = [join(folder, 'counts.raw'), join(folder, 'counts.data')];
  const files = readdirSync(inputs).map((name) => join(inputs, name));
  const run = (program: string, args: readonly string[], more: NodeJS.ProcessEnv = {}): string => {
    const { status, stdout, stderr } = spawnSync(program, args, {
      env: { ...env, ...more },
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    if (status !== 0) throw new Error(`${program}: ${stdout.slice(-500)} ${stderr.slice(-500)}`);
    return stdout;
  };
  run(counter, files, { LLVM_PROFILE_FILE: raw });
  run('llvm-profdata', ['merge', '-sparse', raw, '-o', data]);
  const told = run('llvm-cov', ['export', counter, `-instr-profile=${data}`, '-summary-only', core]);
  const { totals } = JSON.parse(told).data[0];
  return { lines: totals.lines.percent, branches: totals.branches.percent };
}
