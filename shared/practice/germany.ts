/** Germany, today. */

import { LAMPS, VIEWING } from './lamps.ts';
import { COMMON, common, fact, MODEL_DIAL, type Practice, type TimeRule, time } from './practice.ts';
import { railwayOf } from './railway.ts';

const VWV = 'VwV-StVO on §37, IX, quoted';
const RILSA = 'RiLSA, quoted';
const NARROWS = 'RiLSA, as a course page on planning signals quotes it: yellow 4 s where the road narrows';
const EBO = 'EBO, Anlage 5';

const yellow: TimeRule = {
  name: 'Yellow',
  usual: fact(3000, 'quoted', `${VWV}: 3 s at 50 km/h, 4 s at 60, 5 s at 70`),
  range: fact([3000, 5000], 'quoted', `${VWV}: 3 s at 50 km/h, 4 s at 60, 5 s at 70`),
  dial: fact([1000, 10000], 'common', MODEL_DIAL),
};

const redWithYellow: TimeRule = {
  name: 'Red with yellow',
  usual: fact(1000, 'quoted', `${VWV}: 1 s`),
  range: fact([1000, 2000], 'quoted', `${VWV}: 1 s, at most 2 s`),
  dial: fact([500, 10000], 'common', MODEL_DIAL),
};

/** Intergreens of 4 to 6 s are usual; amber 3 and red with yellow 1 leave this much. */
const allRed = time('All red', common(1000), [100, 199000]);
const flashing = {
  flashOn: time('Flash lit', common(500), [100, 2000]),
  flashOff: time('Flash dark', common(500), [100, 2000]),
};
const red = common('red' as const);
const walk = time('Green man', common(7000), [1000, 60000]);
const clearance = time('Clearance', common(6000), [500, 60000]);
const dark = common('dark' as const);
/** What the heads of a set that is out of order do there. */
const outOfOrder = common('flashing-amber' as const);

export const GERMANY_TODAY: Practice = {
  id: 'germany-today',
  name: 'Germany, today',
  drives: common('right'),
  viewing: VIEWING,
  junction: {
    order: fact(['red', 'red-with-amber', 'green', 'amber'], 'quoted', VWV),
    amber: yellow,
    redWithAmber: redWithYellow,
    allRed,
    minGreen: fact(5000, 'quoted', RILSA),
    green: time('Green', common(15000), [1000, 255000]),
    fault: outOfOrder,
    safe: red,
  },
  pedestrian: {
    exists: common(true),
    green: walk,
    clearance,
    shows: common('red'),
    ...flashing,
    walkingSpeed: fact(1.2, 'memory', 'RiLSA, from memory'),
  },
  zebra: {
    exists: fact(false, 'common', COMMON),
    on: time('Lit', common(500), [100, 5000]),
    off: time('Dark', common(500), [100, 5000]),
    fault: dark,
  },
  pelican: {
    exists: fact(false, 'common', COMMON),
    vehicleGreen: time('Vehicle green', common(20000), [1000, 255000]),
    amber: yellow,
    allRed,
    steadyGreen: walk,
    heldFlashing: time('Flashing green man, traffic held', common(0), [0, 20000]),
    flashing: time('Flashing green man', common(6000), [1000, 60000]),
    clearance: time('Red man, flashing yellow', common(2000), [100, 20000]),
    ...flashing,
    flashRate: null,
    fault: outOfOrder,
    safe: red,
  },
  crossing: {
    exists: common(true),
    vehicleGreen: time('Vehicle green', common(20000), [1000, 255000]),
    amber: yellow,
    allRedBefore: allRed,
    walk,
    clearance,
    pedestrianClearance: common('red'),
    allRedAfter: allRed,
    redWithAmber: redWithYellow,
    extension: null,
    ...flashing,
    flashRate: null,
    fault: outOfOrder,
    safe: red,
  },
  levelCrossing: {
    exists: fact(true, 'seen', `${EBO}, picture 2`),
    amber: time('Yellow', common(3000), [1000, 10000]),
    // Flashing red, alone on its shield, is the older kind (picture 4).
    reds: fact('steady', 'seen', `${EBO}, picture 2: yellow, then red`),
    leastRed: time('Least red', common(10000), [1000, 255000]),
    ...flashing,
    flashRate: null,
  },
  shuttle: {
    exists: fact(true, 'quoted', NARROWS),
    amber: { ...yellow, usual: fact(4000, 'quoted', NARROWS) },
    allRed: time('Clearing time', common(8000), [1000, 120000]),
    redWithAmber: redWithYellow,
    green: time('Green', common(20000), [1000, 255000]),
    minGreen: fact(5000, 'quoted', RILSA),
    gap: time('Gap', common(3000), [100, 31800]),
    longest: null,
    idle: red,
  },
  railway: railwayOf(common(true)),
  lamps: LAMPS,
};
