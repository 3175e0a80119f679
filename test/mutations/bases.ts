/** What is mutated: the examples, a town with one site of each kind, a full board, and towns made at random. */
import { readFileSync } from 'node:fs';
import { OFFERS } from '../../shared/layout/new-site/offers.ts';
import { takeAway } from '../../shared/layout/new-site/take-away.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { PRACTICES } from '../../shared/practice/practices.ts';
import { type Dice, pick } from '../fixtures/dice.ts';
import { fortyLamps } from '../panel/forty-lamps.ts';
import { oneOfEach, openTown } from '../panel/one-of-each.ts';

const example = (name: string): string =>
  readFileSync(new URL(`../../shared/layout/examples/${name}.json`, import.meta.url), 'utf8');

export const STANDING = [
  example('penmarrow'),
  example('elm-and-third'),
  writeLayout(oneOfEach()),
  writeLayout(fortyLamps()),
] as const;

/** Text of a sound layout. */
export function anyBase(dice: Dice): string {
  const which = dice.int(0, STANDING.length);
  return STANDING[which] ?? writeLayout(randomTown(dice));
}

/** Some of the offers, in random order, under the rules of some practice; what does not fit is left out. */
function randomTown(dice: Dice): Layout {
  const town = openTown();
  let layout: Layout = { ...town, practice: pick(dice, PRACTICES).id };
  for (let wanted = dice.int(1, 6); wanted > 0; wanted--) {
    const offer = pick(dice, OFFERS);
    const added = offer.add(layout, { name: offer.suggestName(layout), board: 'main' });
    if ('layout' in added) layout = added.layout;
  }
  return takeAway(layout, town.sites[0]?.id ?? '');
}
