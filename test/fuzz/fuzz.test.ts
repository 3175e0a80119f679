/**
 * Random and mutated bytes into the core. Here the kept inputs and some random ones; `AMBERWICK_FUZZ_BYTES` lets a fuzzer
 * look for more (`npm run soak -- --only fuzz`; needs clang), `AMBERWICK_SEED` makes other ones.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeRequest } from '../../shared/link/line.ts';
import { coverage, hunt, minimise } from './hunt.ts';
import { buildReplay, pack, unpack } from './programs.ts';

const BYTES = Number(process.env.AMBERWICK_FUZZ_BYTES ?? 0);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
const RANDOM = 600;
const build = fileURLToPath(new URL('../../build/', import.meta.url));

describe('the core under random bytes', () => {
  let folder: string;
  let unpacked: ReturnType<typeof unpack>;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'amberwick-fuzz-'));
    unpacked = unpack(folder);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  function replay(files: readonly string[], more: readonly string[] = [], env: NodeJS.ProcessEnv = {}) {
    const run = spawnSync(buildReplay(), [...files, ...more], { env: { ...unpacked.env, ...env }, encoding: 'utf8' });
    return { status: run.status, said: `${run.stdout}${run.stderr}` };
  }

  it('keeps its lamps in every kept input, and in random ones', () => {
    const { corpus } = unpacked;
    const kept = readdirSync(corpus).map((name) => join(corpus, name));
    const { status, said } = replay(kept, ['-random', String(RANDOM), String(SEED)]);
    expect(said).toMatch(/^fed \d+ bytes in \d+ inputs\n$/);
    expect(status).toBe(0);
    expect(kept.length).toBeGreaterThan(100);
  });

  it('would be found out: a request that is let through, and that the lamps obey', () => {
    const file = join(folder, 'pause');
    // Mode 0, town 0, no events; then noise that is a whole request after all.
    writeFileSync(file, Buffer.concat([Uint8Array.of(0, 0), Buffer.from(`noise\n${encodeRequest(1, 'pause')}`)]));
    expect(replay([file]).said).toMatch(/^fed /);
    const caught = replay([file], [], { AMBERWICK_LET_THROUGH: '1' });
    expect(caught.said).toContain('bad lamps disturbed');
    expect(caught.status).not.toBe(0);
  });
});

describe.runIf(BYTES > 0)('a fuzzer', () => {
  it(`finds nothing in ${BYTES} bytes`, async () => {
    const folder = `${build}fuzz`;
    mkdirSync(folder, { recursive: true });
    const hunted = await hunt({
      folder,
      bytes: BYTES,
      seed: SEED,
      progress: ({ bytes, inputs, seconds, edges }) =>
        console.log(`${bytes} of ${BYTES} bytes in ${inputs} inputs, ${seconds} s, ${edges} edges`),
    });
    const least = minimise(folder);
    const summary = { seed: SEED, ...hunted, kept: pack(least), reached: coverage(folder, least) };
    console.log(JSON.stringify(summary));
    writeFileSync(`${build}soak-fuzz.json`, `${JSON.stringify(summary, null, 2)}\n`);
    expect(hunted.bytes).toBeGreaterThanOrEqual(BYTES);
    expect(summary.reached.lines).toBeGreaterThan(90);
  });
});
