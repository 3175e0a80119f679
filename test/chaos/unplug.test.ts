/**
 * The cable is pulled at random moments. `AMBERWICK_UNPLUGS` and
 * `AMBERWICK_SEED` make it more and other ones (`npm run soak`).
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { storm } from './storm.ts';

const ROUNDS = Number(process.env.AMBERWICK_UNPLUGS ?? 5);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);

it(
  `${ROUNDS} pulled plugs: the app goes on, nothing kept is lost, the log has no gap`,
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'amberwick-storm-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const complaints: unknown[] = [];
    const complain = (error: unknown) => complaints.push(error);
    process.on('unhandledRejection', complain);
    onTestFinished(() => void process.off('unhandledRejection', complain));

    const { pulled, emptied, log } = await storm({
      folder,
      seed: SEED,
      rounds: ROUNDS,
      progress: (done, what) => {
        if (done % 50 === 0) console.log(`${done} of ${ROUNDS} plugs pulled; last: ${what}`);
      },
    });
    console.log(`seed ${SEED}: ${JSON.stringify(pulled)}, ${emptied} firmware writes cut off half way`);

    expect(complaints).toEqual([]);
    expect(Object.values(pulled).reduce((sum, count) => sum + count, 0)).toBe(ROUNDS);
    expect(log.map(({ number }) => number)).toEqual(log.map((_, index) => index + 1));
    expect(log.filter(({ text }) => text.includes('mistake in the program'))).toEqual([]);
    // Every loss is followed by a return, and both are in the log.
    const link = log.flatMap(({ kind, data, text }) => {
      if (kind === 'connection') return [data?.problem ? 'lost' : text.startsWith('Disconnected') ? 'left' : 'there'];
      return kind === 'firmware' ? ['there'] : [];
    });
    expect(link.filter((it, at) => it === 'lost' && link[at + 1] !== 'there')).toEqual([]);
    expect(link.at(-1)).toBe('there');
  },
  Math.max(600_000, ROUNDS * 60_000),
);
