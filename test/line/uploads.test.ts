/**
 * Uploads over a line where each byte has a fault with a chance of 1 %. `AMBERWICK_UPLOADS` and `AMBERWICK_SEED` make it
 * more and other ones (`npm run soak -- --only line`).
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import type { Chip } from '../../shared/table/format.ts';
import { type UploadTally, uploads } from './uploads.ts';

const COUNT = Number(process.env.AMBERWICK_UPLOADS ?? 120);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
const RATE = 0.01;
const build = fileURLToPath(new URL('../../build/', import.meta.url));

const runs: [Chip, number][] = [['atmega328p', COUNT]];
if (process.env.AMBERWICK_UPLOADS) runs.push(['atmega2560', Math.ceil(COUNT / 10)]);

it.each(runs)(
  '%s: %i uploads over a line with faults in 1 of 100 bytes end whole or in a named failure',
  async (chip, count) => {
    const progress = ({ uploads: done, whole }: UploadTally) => {
      if (done % 500 === 0) console.log(`${chip}: ${done} of ${count} uploads, ${whole} whole`);
    };
    const begun = performance.now();
    const tally = await uploads({ chip, count, seed: SEED, rate: RATE, progress });
    const summary = summed(tally, performance.now() - begun);
    console.log(`${chip}, seed ${SEED}: ${JSON.stringify(summary)}`);
    if (process.env.AMBERWICK_UPLOADS) {
      mkdirSync(build, { recursive: true });
      writeFileSync(`${build}soak-line-${chip}.json`, `${JSON.stringify({ chip, seed: SEED, ...summary }, null, 2)}\n`);
    }

    expect(tally.uploads).toBe(count);
    expect(tally.faults / tally.bytes).toBeGreaterThan(0.9 * RATE);
    expect(tally.faults / tally.bytes).toBeLessThan(1.1 * RATE);
    // Noise alone stops no upload: what fails lost its cable or its board on the way.
    expect(Object.keys(tally.failures).filter((told) => told.includes('silent'))).toEqual([]);
    expect(tally.whole / count).toBeGreaterThan(0.75);
  },
);

it('without faults every upload is whole, in the time that the memory of the board takes', async () => {
  const tally = await uploads({ chip: 'atmega328p', count: 20, seed: SEED, rate: 0 });
  expect(tally).toMatchObject({ uploads: 20, whole: 20, failures: {}, faults: 0 });
  expect(Math.max(...tally.times)).toBeLessThan(4000);
});

function summed({ uploads: count, whole, failures, faults, bytes, times }: UploadTally, tookMs: number) {
  const inOrder = [...times].sort((a, b) => a - b);
  const at = (share: number) => inOrder[Math.floor(share * (inOrder.length - 1))] ?? null;
  return {
    uploads: count,
    whole,
    failures,
    faults,
    bytes,
    boardMs: { median: at(0.5), ninetieth: at(0.9), longest: at(1) },
    tookMs: Math.round(tookMs),
  };
}
