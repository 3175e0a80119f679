import { expect, it } from 'vitest';
import { hasErrors } from '../../../shared/findings/finding.ts';
import { decodeTable } from '../../../shared/table/decode.ts';
import { type Dice, seededDice } from '../../fixtures/dice.ts';
import { randomTable } from '../../fixtures/random-table.ts';
import { answers, between, hex, imageOf, play } from './play.ts';

/** One to three bytes are other ones, or the end is cut off or grown. */
function damaged(dice: Dice, image: Uint8Array): Uint8Array {
  if (dice.int(1, 10) === 1) return image.slice(0, dice.int(12, image.length));
  if (dice.int(1, 20) === 1) return Uint8Array.from([...image, 0]);
  const bytes = image.slice();
  for (let i = dice.int(1, 3); i > 0; i -= 1) {
    const at = dice.int(0, bytes.length - 1);
    bytes[at] = dice.int(0, 1) ? dice.int(0, 255) : (bytes[at] ?? 0) ^ (1 << dice.int(0, 7));
  }
  return bytes;
}

it.each(['atmega328p', 'atmega2560'] as const)(
  'the board takes a damaged image exactly when the codec finds it consistent (%s)',
  async (chip) => {
    const seed = Number(process.env.AMBERWICK_SEED ?? 1);
    console.info(`${chip}: seeds ${seed} to ${seed + 249}`);
    const cases = Array.from({ length: 250 }, (_, i) => {
      const dice = seededDice(seed + i);
      return { seed: seed + i, image: damaged(dice, imageOf({ ...randomTable(dice, chip), sweep: 0 })) };
    });
    // What is taken also runs for a while, under the sanitizers.
    const lines = await play(
      cases.flatMap(({ seed, image }) => [`say ${seed}`, 'quiet 1', `table ${hex(image)}`, 'ask sum run', 'run 300']),
      chip,
    );
    let taken = 0;
    for (const [i, { seed, image }] of cases.entries()) {
      const next = cases[i + 1]?.seed;
      const [answer] = answers(between(lines, `${seed}`, next === undefined ? undefined : `${next}`));
      const isTaken = answer?.startsWith('ok') ?? false;
      const { table, findings } = decodeTable(image, chip);
      const isConsistent = table !== null && !hasErrors(findings);
      expect(isTaken, `seed ${seed}: ${findings[0]?.what ?? 'no finding'}; ${hex(image)}`).toBe(isConsistent);
      if (isTaken) taken += 1;
    }
    // Both outcomes occur, so that neither side can say always the same.
    expect(taken).toBeGreaterThan(25);
    expect(taken).toBeLessThan(225);
  },
);
