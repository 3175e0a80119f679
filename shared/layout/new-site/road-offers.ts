/** Lights for roads. Sizes and times are the templates' and the practice's. */
import type { Lamp } from '../outputs.ts';
import type { Site } from '../schema.ts';
import { CROSSING_HEADS, makeCrossing } from '../templates/crossing.ts';
import { makeLevelCrossing } from '../templates/level-crossing.ts';
import { makePelican } from '../templates/pelican.ts';
import { makeShuttle } from '../templates/shuttle.ts';
import type { Recipe } from './offer.ts';

const VEHICLES = ['red', 'amber', 'green'] as const;
const FIGURE = ['red', 'green'] as const;

/** The crossings' templates take the vehicles' head first, then the figure. */
const CROSSING_COLOURS = CROSSING_HEADS.map((lamps) => (lamps === 3 ? VEHICLES : FIGURE));

const zebra: Recipe = {
  id: 'zebra',
  name: 'Zebra crossing',
  hint: 'Two flashing beacons on banded posts.',
  kind: 'zebra',
  heads: [['amber', 'amber']],
  short: 'zebra',
  stands: 'road',
  inputs: [],
  make: ({ id, name, board, place, lamps: [beacons = []] }): Site => {
    const beacon = (side: 'left' | 'right', output: Lamp | undefined) =>
      output ? [{ id: side, name: side === 'left' ? 'Left side' : 'Right side', side, ...output }] : [];
    return {
      kind: 'zebra',
      id,
      name,
      board,
      ...(place && { place }),
      beacons: [...beacon('left', beacons[0]), ...beacon('right', beacons[1])],
      flash: 'alternate',
    };
  },
};

const pelican: Recipe = {
  id: 'pelican',
  name: 'Pelican crossing',
  hint: 'A button stops the traffic; then amber and the green figure flash.',
  kind: 'pelican',
  heads: CROSSING_COLOURS,
  short: 'pelican',
  stands: 'road',
  inputs: [{ id: 'button', name: 'button', is: 'button' }],
  make: ({ inputs, ...parts }) => makePelican({ ...parts, buttons: inputs }),
};

const crossing: Recipe = {
  id: 'crossing',
  name: 'Signal crossing',
  hint: 'A button stops the traffic; nothing flashes for the vehicles.',
  kind: 'crossing',
  heads: CROSSING_COLOURS,
  short: 'crossing',
  stands: 'road',
  inputs: [{ id: 'button', name: 'button', is: 'button' }],
  make: ({ inputs, ...parts }) => makeCrossing({ ...parts, buttons: inputs }),
};

const levelCrossing: Recipe = {
  id: 'level-crossing',
  name: 'Level crossing',
  hint: 'Amber, then two reds in turn for as long as a train is near.',
  kind: 'level-crossing',
  heads: [['amber', 'red', 'red']],
  headsFor: ({ levelCrossingAmber }) => [levelCrossingAmber === false ? ['red', 'red'] : ['amber', 'red', 'red']],
  short: 'level crossing',
  stands: 'road',
  inputs: [{ id: 'train', name: 'train', is: 'detector' }],
  make: ({ lamps: [lights = []], inputs, ...parts }) =>
    makeLevelCrossing({ ...parts, lamps: lights, detectors: inputs }),
};

const shuttle: Recipe = {
  id: 'shuttle',
  name: 'Road works',
  hint: 'One lane, a head at each end, one end at a time.',
  kind: 'shuttle',
  heads: [VEHICLES, VEHICLES],
  short: 'road works',
  stands: 'road',
  inputs: [],
  make: ({ lamps, ...parts }) => makeShuttle({ ...parts, lamps }),
};

export const ROAD_RECIPES: readonly Recipe[] = [zebra, pelican, crossing, shuttle, levelCrossing];
