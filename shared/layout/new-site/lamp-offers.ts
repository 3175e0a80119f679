/** Railway signals, and lamps that are no signals. */
import type { Colour, Lamp } from '../outputs.ts';
import { makeBeacons } from '../templates/beacons.ts';
import { makeColourLight } from '../templates/colour-light.ts';
import { makeFlicker } from '../templates/flicker.ts';
import { makeIndicators } from '../templates/indicators.ts';
import { makeStreetLamps } from '../templates/street-lamps.ts';
import type { Parts, Recipe } from './offer.ts';

/** From the top (Network Rail glossary). */
const SIGNALS: Readonly<Record<2 | 3 | 4, readonly Colour[]>> = {
  2: ['green', 'red'],
  3: ['green', 'yellow', 'red'],
  4: ['yellow', 'green', 'yellow', 'red'],
};

const colourLight = (aspects: 2 | 3 | 4): Recipe => ({
  id: `colour-light-${aspects}`,
  name: `Railway signal, ${aspects} aspects`,
  hint: 'Red when a train passes, and clear again step by step.',
  kind: 'colour-light',
  heads: [SIGNALS[aspects]],
  short: 'signal',
  stands: 'beside',
  inputs: [{ id: 'train', name: 'train passing', is: 'detector' }],
  make: (parts) => {
    const [passing] = parts.inputs;
    const site = makeColourLight({ ...named(parts), aspects, pins: pinsOf(parts), ...(passing && { passing }) });
    const outputs = outputsOf(parts);
    const wired = Object.keys(site.lamps).map((lamp, index) => [lamp, outputs[index]] as const);
    return { ...site, ...standing(parts), lamps: Object.fromEntries(wired) };
  },
});

const streetLamps: Recipe = {
  id: 'street-lamps',
  name: 'Street lamps',
  hint: 'Four lamps that come on here and there, flickering as they strike.',
  kind: 'street-lamps',
  heads: [['warm-white', 'warm-white', 'warm-white', 'warm-white']],
  short: 'street lamps',
  stands: 'beside',
  inputs: [],
  make: (parts) => {
    const site = makeStreetLamps({ ...named(parts), pins: pinsOf(parts) });
    return { ...site, ...standing(parts), lamps: rewired(site.lamps, parts) };
  },
};

const indicators: Recipe = {
  id: 'indicators',
  name: 'Direction indicators',
  hint: 'The left and right lamps of one vehicle, flashing together.',
  kind: 'indicators',
  heads: [['amber', 'amber']],
  short: 'van',
  stands: 'beside',
  inputs: [],
  make: (parts) => {
    const [left, right] = pinsOf(parts);
    const site = makeIndicators({ ...named(parts), ...(left && { left }), ...(right && { right }) });
    return { ...site, ...standing(parts), lamps: rewired(site.lamps, parts) };
  },
};

const beacons: Recipe = {
  id: 'beacons',
  name: 'Blue lights',
  hint: 'Two beacons of an emergency vehicle, flashing in turn.',
  kind: 'beacons',
  heads: [['blue', 'blue']],
  short: 'blue lights',
  stands: 'beside',
  inputs: [],
  make: (parts) => {
    const site = makeBeacons({ ...named(parts), pins: pinsOf(parts) });
    return { ...site, ...standing(parts), lamps: rewired(site.lamps, parts) };
  },
};

const flicker = (effect: 'fire' | 'welding'): Recipe => ({
  id: effect,
  name: effect === 'fire' ? 'Fire' : 'Welding',
  hint: effect === 'fire' ? 'Three lamps that burn without a rhythm.' : 'Bursts of hard white light, and rests.',
  kind: 'flicker',
  heads: [effect === 'fire' ? ['red', 'amber', 'yellow'] : ['white']],
  short: effect === 'fire' ? 'fire' : 'welder',
  stands: 'beside',
  inputs: [],
  make: (parts) => {
    const site = makeFlicker({ ...named(parts), effect, pins: pinsOf(parts) });
    return { ...site, ...standing(parts), lamps: rewired(site.lamps, parts) };
  },
});

export const LAMP_RECIPES: readonly Recipe[] = [
  colourLight(2),
  colourLight(3),
  colourLight(4),
  streetLamps,
  indicators,
  beacons,
  flicker('fire'),
  flicker('welding'),
];

const named = ({ id, name, board }: Parts) => ({ id, name, board });
const standing = ({ place }: Parts) => (place ? { place } : {});
const outputsOf = ({ lamps }: Parts): readonly Lamp[] => lamps[0] ?? [];

/** These templates speak of pins; an output on the chain stands in by its number until it is put in. */
const pinsOf = (parts: Parts) => outputsOf(parts).map(({ pin, bit }) => pin ?? `bit ${bit}`);

/** The lamps of a template on the outputs that were allotted, pins or bits of the chain. */
function rewired<T extends Lamp>(lamps: readonly T[], parts: Parts): T[] {
  const outputs = outputsOf(parts);
  return lamps.map(({ pin: _, ...lamp }, index) => ({ ...lamp, ...outputs[index] }) as T);
}
