/**
 * The host is killed at random moments of keeps, saves, checks and remarks. `AMBERWICK_KILLS` and `AMBERWICK_SEED`
 * make it more and other ones (`npm run soak -- --only kills`).
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { killHosts } from './kill-lives.ts';

const KILLS = Number(process.env.AMBERWICK_KILLS ?? 5);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);

it(
  `${KILLS} killed hosts: nothing that was said to be done is lost or half-written`,
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'amberwick-kill-'));
    const deaths = await killHosts({
      folder,
      seed: SEED,
      kills: KILLS,
      progress: (done, so) => {
        if (done % 25 === 0) console.log(`${done} of ${KILLS} hosts killed: ${JSON.stringify(so)}`);
      },
    });
    console.log(`seed ${SEED}: ${JSON.stringify(deaths)}`);
    expect(deaths.early + deaths.working).toBe(KILLS);
    // Hosts that are killed before they do anything prove nothing.
    expect(deaths.promises).toBeGreaterThan(KILLS / 2);
    // Kept where something is wrong, to be looked into.
    rmSync(folder, { recursive: true, force: true });
  },
  Math.max(600_000, KILLS * 120_000),
);
