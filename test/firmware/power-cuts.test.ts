/**
 * The power fails at random cycles of keep after keep, on the shipped images. `AMBERWICK_CUTS` and `AMBERWICK_SEED`
 * make it more and other ones (`npm run soak -- --only cuts`).
 */
import { expect, test } from 'vitest';
import { seededDice } from '../fixtures/dice.ts';
import { penmarrowBoard, withoutSweep } from '../timing/example.ts';
import { CutLives } from './power-cut-lives.ts';

const CUTS = Number(process.env.AMBERWICK_CUTS ?? 40);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
/** One in so many on the larger chip. */
const LARGER = 8;

const small = withoutSweep(penmarrowBoard().table);

test.each([
  { chip: 'atmega328p', cuts: CUTS - Math.floor(CUTS / LARGER), table: small },
  { chip: 'atmega2560', cuts: Math.floor(CUTS / LARGER), table: { ...small, chip: 'atmega2560' as const } },
])('$cuts cuts at random cycles on the $chip: the old table or the new one, whole', ({ chip, cuts, table }) => {
  const lives = new CutLives(table, seededDice(SEED));
  for (let cut = 1; cut <= cuts; cut++) {
    lives.cut();
    if (cut % 250 === 0) console.log(`${chip}: ${cut} of ${cuts} cuts`);
  }
  console.log(`${chip}, seed ${SEED}: ${JSON.stringify(lives.count)}`);
  const { count } = lives;
  expect(count.cuts).toBe(cuts);
  expect(count.old + count.fresh + count.answered).toBe(cuts);
  // Cuts that come too late or always too early would prove nothing.
  expect(count.old).toBeGreaterThan(0);
  expect(count.tornErase + count.tornWrite).toBeGreaterThan(0);
});
