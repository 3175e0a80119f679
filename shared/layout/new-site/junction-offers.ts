/** Junctions: where roads meet, or across a road with arms of their own. */
import { type JunctionWish, junctionHeads, makeJunction } from '../templates/junction.ts';
import type { Parts, Recipe } from './offer.ts';

interface Shape {
  readonly id: string;
  readonly name: string;
  readonly hint: string;
  /** Where the plan has no roads that meet so, degrees from up. */
  readonly arms: readonly number[];
  readonly wish: Omit<JunctionWish, 'arms'>;
  readonly button?: boolean;
}

const SHAPES: readonly Shape[] = [
  {
    id: 'crossroads',
    name: 'Crossroads',
    hint: 'Two roads take turns; the first is the busier one.',
    arms: [90, 270, 0, 180],
    wish: { busier: 'first' },
  },
  {
    id: 't-junction',
    name: 'T-junction',
    hint: 'A side road waits for its turn.',
    arms: [90, 270, 180],
    wish: { busier: 'first' },
  },
  {
    id: 'crossroads-foot',
    name: 'Crossroads for walkers',
    hint: 'A button stops all traffic while people cross.',
    arms: [90, 270, 0, 180],
    wish: { busier: 'first', pedestrians: true },
    button: true,
  },
];

export const JUNCTION_RECIPES: readonly Recipe[] = SHAPES.map(({ id, name, hint, arms, wish, button }) => ({
  id,
  name,
  hint,
  kind: 'junction',
  heads: junctionHeads({ arms, ...wish }),
  short: name.startsWith('T') ? name : name.toLowerCase(),
  stands: arms.length,
  inputs: button ? [{ id: 'button', name: 'button', is: 'button' }] : [],
  make: ({ arms: found, inputs, ...parts }) => {
    const fits = found.length === arms.length;
    const roads = fits ? roadsOf(found) : null;
    return makeJunction({
      ...parts,
      ...wish,
      // On a road that meets no other here, that road is the first one: along the site's up.
      arms: fits ? found.map(({ angle }) => angle) : arms.map((arm) => (found.length > 0 ? (arm + 90) % 360 : arm)),
      ...(roads && { roads }),
      ...(inputs.length > 0 && { buttons: inputs }),
    });
  },
}));

/** Names of the road that goes straight through, as the template finds it, and of the other. Null: they have none. */
function roadsOf(arms: Parts['arms']): [string, string] | null {
  const pairs = arms.flatMap((a, index) => arms.slice(index + 1).map((b) => [a, b] as const));
  const off = ([a, b]: (typeof pairs)[number]): number => Math.abs(180 - Math.abs(a.angle - b.angle));
  const through = pairs.reduce<(typeof pairs)[number] | undefined>(
    (best, pair) => (best && off(best) <= off(pair) ? best : pair),
    undefined,
  );
  const first = through?.[0].road;
  const second = arms.find((arm) => !through?.includes(arm))?.road;
  return first && second && first !== second ? [first, second] : null;
}
