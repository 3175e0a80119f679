/**
 * Random walks through edits, undo and redo of everything that can be undone. `AMBERWICK_WALKS` and `AMBERWICK_SEED`
 * make it more and other ones (`npm run soak -- --only walks`).
 */
import { expect, test } from 'vitest';
import { seededDice } from '../fixtures/dice.ts';
import { walkBench } from './walks/bench.ts';
import { MOVES } from './walks/moves.ts';
import { walk } from './walks/walk.ts';

const WALKS = Number(process.env.AMBERWICK_WALKS ?? 100);
const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
/** Walks on one bench: each ends where it began. */
const EACH = 25;

test(`${WALKS} walks through edits, undo and redo come back to the same layout, the same times, the same kept ones`, async () => {
  const steps: Record<string, number> = {};
  let undone = 0;
  let bench = await walkBench();
  for (let at = 0; at < WALKS; at++) {
    if (at % EACH === 0) bench = await walkBench();
    const seed = SEED * 3_000_017 + at;
    const walked = await walk(seededDice(seed), bench);
    expect(walked.wrong, `seed ${seed}`).toBeNull();
    for (const [name, count] of Object.entries(walked.steps)) steps[name] = (steps[name] ?? 0) + count;
    undone += walked.undone;
  }
  console.log(`${WALKS} walks from seed ${SEED}: ${undone} times undo or redo; ${JSON.stringify(steps)}`);
  expect(undone).toBeGreaterThan(3 * WALKS);
  // Over many walks each way to change something has been a step, but for those that found nothing to do in 1,000 of them.
  const idle = ['note a set', 'share heads', 'like this'];
  if (WALKS >= 1000) expect(Object.keys(MOVES).filter((name) => !steps[name] && !idle.includes(name))).toEqual([]);
}, 36_000_000);
