/** Layout files with something wrong in them, from a seed: the same number is always the same file. */

import { readLayout } from '../../shared/layout/parse.ts';
import { type Dice, seededDice, times } from '../fixtures/dice.ts';
import { anyBase } from './bases.ts';
import { STRUCTURE } from './structure.ts';
import { mutatedBytes, mutatedTokens } from './text.ts';

export interface MutatedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** What was done to it, for a failing test. */
  readonly what: string;
}

/** Five of eight keep to JSON, and two of these to the schema, so that what comes after each is reached, too. */
export function mutatedFile(seed: number): MutatedFile {
  const dice = seededDice(seed);
  const level = dice.int(1, 8);
  const name = `file-${seed}.json`;
  const base = anyBase(dice);
  if (level <= 2) {
    const [bytes, what] = mutatedBytes(dice, base);
    return { name, bytes, what };
  }
  if (level === 3) {
    const [text, what] = mutatedTokens(dice, base);
    return { name, bytes: Buffer.from(text), what };
  }
  return { name, ...(level > 6 ? stillLayout(dice, base) : mutatedTree(dice, base)) };
}

/** Several mutations, each of which leaves something that the schema takes: mistakes in what is meant. */
function stillLayout(dice: Dice, base: string): Pick<MutatedFile, 'bytes' | 'what'> {
  const so: { text: string; done: string[] } = { text: base, done: [] };
  for (let tries = dice.int(3, 9); tries > 0; tries--) {
    const { bytes, what } = mutatedTree(dice, so.text, 1);
    const text = Buffer.from(bytes).toString();
    if (!readLayout(JSON.parse(text)).layout) continue;
    so.text = text;
    so.done.push(what);
  }
  return { bytes: Buffer.from(so.text), what: so.done.join('; ') };
}

function mutatedTree(dice: Dice, base: string, steps = dice.int(1, 3)): Pick<MutatedFile, 'bytes' | 'what'> {
  const document = JSON.parse(base);
  const done = times(steps, () => STRUCTURE[dice.int(0, STRUCTURE.length - 1)]?.(dice, document));
  const indent = dice.int(0, 2);
  return { bytes: Buffer.from(JSON.stringify(document, null, indent)), what: done.join('; ') };
}
