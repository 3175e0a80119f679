/** The United States of America, today. */

import { LAMPS, VIEWING } from './lamps.ts';
import { COMMON, common, type FlashRule, fact, MODEL_DIAL, type Practice, type TimeRule, time } from './practice.ts';
import { railwayOf } from './railway.ts';

const MUTCD = 'MUTCD 11th edition';
const FDOT = 'MUTCD, quoted by FDOT Traffic Engineering Manual 3.6.1';
const FLASH = `${MUTCD} §4G.01 ¶01-02: 50 to 60 a minute, lit half to two thirds`;
const WALK = 'MUTCD §4E.06, quoted: walk at least 7 s, clearance at 3.5 ft/s';

const yellow: TimeRule = {
  name: 'Yellow',
  usual: fact(3000, 'seen', `${FDOT}: 3 to 6 s`),
  range: fact([3000, 6000], 'seen', FDOT),
  dial: fact([1000, 10000], 'common', MODEL_DIAL),
};

const redClearance: TimeRule = {
  name: 'Red clearance',
  usual: fact(1500, 'derived', '(60 + 16) / (1.47 × 35) = 1.477 s, a teaching example, rounded'),
  range: fact([0, 6000], 'seen', `${FDOT}: at most 6 s`),
  dial: fact([100, 6000], 'seen', `${FDOT}: at most 6 s`),
};

/** 60 a minute, half lit. */
const flash = fact(500, 'derived', FLASH);
const flashRate: FlashRule = { perMinute: fact([50, 60], 'seen', FLASH), lit: fact([1 / 2, 2 / 3], 'seen', FLASH) };
const flashing = {
  flashOn: time('Flash lit', flash, [100, 2000]),
  flashOff: time('Flash dark', flash, [100, 2000]),
};

const walk = time('Walk', fact(7000, 'quoted', WALK), [1000, 60000]);
/** A road 35 ft wide at 3.5 ft/s. */
const clearance = time(
  "Flashing don't walk",
  fact(10000, 'derived', `${WALK}; 35 ft of road, our choice`),
  [1000, 60000],
);
const conflictFlash = fact(
  'flashing-red' as const,
  'derived',
  `${MUTCD} §4G.01 ¶05-06: flash on a conflict; red on all approaches, our choice`,
);
const red = common('red' as const);

export const USA_TODAY: Practice = {
  id: 'usa-today',
  name: 'United States, today',
  drives: common('right'),
  viewing: VIEWING,
  junction: {
    order: common(['red', 'green', 'amber']),
    amber: yellow,
    redWithAmber: null,
    allRed: redClearance,
    minGreen: common(5000),
    green: time('Green', common(15000), [1000, 255000]),
    fault: conflictFlash,
    safe: red,
  },
  pedestrian: {
    exists: fact(true, 'quoted', WALK),
    green: walk,
    clearance,
    shows: fact('flashing-red', 'quoted', WALK),
    ...flashing,
    walkingSpeed: fact(3.5 * 0.3048, 'quoted', WALK),
  },
  zebra: {
    exists: fact(false, 'common', COMMON),
    // The rate of other flashing beacons there.
    on: time('Lit', flash, [100, 5000]),
    off: time('Dark', flash, [100, 5000]),
    fault: common('dark'),
  },
  pelican: {
    exists: fact(false, 'common', COMMON),
    vehicleGreen: time('Vehicle green', common(20000), [1000, 255000]),
    amber: yellow,
    allRed: redClearance,
    steadyGreen: walk,
    heldFlashing: time("Flashing don't walk, traffic held", common(0), [0, 20000]),
    flashing: clearance,
    clearance: time("Don't walk, flashing yellow", common(2000), [100, 20000]),
    ...flashing,
    flashRate,
    fault: conflictFlash,
    safe: red,
  },
  crossing: {
    exists: fact(true, 'quoted', WALK),
    vehicleGreen: time('Vehicle green', common(20000), [1000, 255000]),
    amber: yellow,
    allRedBefore: redClearance,
    walk,
    clearance,
    pedestrianClearance: fact('flashing-red', 'quoted', WALK),
    allRedAfter: time("Don't walk before green", common(3000), [100, 20000]),
    redWithAmber: null,
    extension: null,
    ...flashing,
    flashRate,
    fault: conflictFlash,
    safe: red,
  },
  levelCrossing: {
    exists: common(true),
    amber: null,
    reds: common('alternating'),
    leastRed: time('Least red', common(20000), [1000, 255000]),
    flashOn: time('Flash lit', common(600), [100, 2000]),
    flashOff: time('Flash dark', common(600), [100, 2000]),
    flashRate: null,
  },
  shuttle: {
    exists: common(true),
    amber: yellow,
    allRed: time('Red clearance', common(8000), [1000, 120000]),
    redWithAmber: null,
    green: time('Green', common(20000), [1000, 255000]),
    minGreen: common(12000),
    gap: time('Gap', common(3000), [100, 31800]),
    longest: null,
    idle: red,
  },
  railway: railwayOf(common(true)),
  lamps: LAMPS,
};
