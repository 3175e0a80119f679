/** The United Kingdom, today and in the middle of the 1960s. */

import { LAMPS, VIEWING } from './lamps.ts';
import { common, fact, type Practice } from './practice.ts';
import { RAILWAY_UK } from './railway.ts';
import { crossing, pelican } from './uk/crossings.ts';
import { junction, pedestrian, zebra } from './uk/junction.ts';
import { levelCrossing, levelCrossing1965 } from './uk/level-crossing.ts';
import { shuttle } from './uk/shuttle.ts';
import { assumed, assumedTime, HISTORIES } from './uk/sources.ts';

export { UK_TOLERANCE } from './uk/sources.ts';

const DRIVES = common('left' as const);

export const UK_TODAY: Practice = {
  id: 'uk-today',
  name: 'United Kingdom, today',
  drives: DRIVES,
  viewing: VIEWING,
  junction,
  pedestrian,
  zebra,
  pelican,
  crossing,
  levelCrossing,
  shuttle,
  railway: RAILWAY_UK,
  lamps: LAMPS,
};

const amber = assumedTime(pelican.amber);
const redWithAmber = crossing.redWithAmber === null ? null : assumedTime(crossing.redWithAmber);

export const UK_1965: Practice = {
  ...UK_TODAY,
  id: 'uk-1965',
  name: 'United Kingdom, mid-1960s',
  junction: {
    ...junction,
    order: fact(
      junction.order.value,
      'assumed',
      'red with amber in the 1933 regulations, ¶28 (Hansard 1934); order as today',
    ),
    amber,
    redWithAmber,
    allRed: assumedTime(junction.allRed),
    minGreen: assumed(junction.minGreen),
  },
  pedestrian: {
    ...pedestrian,
    exists: assumed(pedestrian.exists),
    green: assumedTime(pedestrian.green),
    clearance: assumedTime(pedestrian.clearance),
    shows: assumed(pedestrian.shows),
  },
  zebra: {
    exists: fact(true, 'seen', 'Traffic Signs Committee report 1963, ¶252, 255: flashing amber globes, banded posts'),
    on: assumedTime(zebra.on),
    off: assumedTime(zebra.off),
    fault: zebra.fault,
  },
  pelican: {
    ...pelican,
    exists: fact(false, 'quoted', `${HISTORIES}; in 1965 there were zebras and a few pandas`),
    amber,
  },
  crossing: {
    ...crossing,
    exists: fact(false, 'quoted', `${HISTORIES}; in 1965 there were zebras and a few pandas`),
    amber,
    redWithAmber,
    extension: null,
  },
  levelCrossing: levelCrossing1965,
  shuttle: {
    ...shuttle,
    exists: assumed(shuttle.exists),
    amber,
    redWithAmber,
    minGreen: assumed(shuttle.minGreen),
    longest: null,
    idle: assumed(shuttle.idle),
  },
  railway: {
    ...RAILWAY_UK,
    exists: assumed(RAILWAY_UK.exists),
    aspects: assumed(RAILWAY_UK.aspects),
    fourAspectHead: RAILWAY_UK.fourAspectHead === null ? null : assumed(RAILWAY_UK.fourAspectHead),
  },
};
