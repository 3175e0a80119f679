/**
 * Files that went wrong, of every kind: each is a clean load or findings, never a throw. `AMBERWICK_FILES` and
 * `AMBERWICK_SEED` make it more and other ones (`npm run soak -- --only files`).
 */
import { expect, test } from 'vitest';
import { judge, textOf, type Verdict } from './judge.ts';
import { mutatedFile } from './mutate.ts';

const FILES = Number(process.env.AMBERWICK_FILES ?? 150);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);

test(`${FILES} mutated layout files are a clean load or findings with what, why, cure and a place`, () => {
  const verdicts: Record<Verdict, number> = { clean: 0, 'opens with findings': 0, refused: 0 };
  const failures: string[] = [];
  for (let at = 0; at < FILES; at++) {
    const seed = SEED * 1_000_003 + at;
    const { name, bytes, what } = mutatedFile(seed);
    try {
      verdicts[judge(name, textOf(bytes))]++;
    } catch (thrown) {
      failures.push(
        `seed ${seed} (${what}): ${thrown instanceof Error ? (thrown.stack ?? '').slice(0, 1500) : thrown}`,
      );
    }
  }
  console.log(`${FILES} files from seed ${SEED}: ${JSON.stringify(verdicts)}`);
  expect(failures).toEqual([]);
  // A generator that only makes rubbish, or none, would prove nothing.
  for (const count of Object.values(verdicts)) expect(count).toBeGreaterThan(FILES / 50);
}, 36_000_000);

test('the same number is always the same file', () => {
  for (const seed of [3, 4, 5]) expect(mutatedFile(seed)).toEqual(mutatedFile(seed));
});
