/** Junction signals of the United Kingdom, for vehicles and for people on foot. */
import { COMMON, common, fact, time } from '../fact.ts';
import type { JunctionPractice, PedestrianPractice, ZebraPractice } from '../kinds.ts';
import { fixed, HANDBOOK, TAL } from './sources.ts';

export const amber = fixed('Amber', fact(3000, 'seen', `${TAL} part 2 (abstract)`), [1000, 10000]);
export const redWithAmber = fixed('Red with amber', fact(2000, 'seen', `${TAL} part 2 (abstract)`), [500, 10000]);

export const junction: JunctionPractice = {
  order: fact(['red', 'red-with-amber', 'green', 'amber'], 'seen', 'Traffic Signs Regulations 1994, reg. 30(4)'),
  amber,
  redWithAmber,
  allRed: {
    name: 'All red',
    usual: fact(0, 'seen', `${TAL}: worked interstage of 5 s, amber 3 + red with amber 2`),
    range: null,
    dial: fact([100, 199000], 'seen', `${HANDBOOK}: intergreen up to 199 s`),
  },
  minGreen: fact(7000, 'memory', 'Traffic Signs Manual chapter 6, from memory'),
  green: {
    name: 'Green',
    usual: common(15000),
    range: null,
    dial: fact([1000, 255000], 'seen', `${HANDBOOK}: maximum green up to 255 s`),
  },
  // Flashing amber is no fault aspect of UK junctions; the heads go out.
  fault: common('dark'),
  safe: common('red'),
};

export const pedestrian: PedestrianPractice = {
  exists: fact(true, 'common', COMMON),
  green: time('Green man', fact(6000, 'common', COMMON), [1000, 60000]),
  clearance: time('Blackout', fact(6000, 'common', COMMON), [500, 60000]),
  shows: common('blackout'),
  flashOn: time('Flash lit', common(400), [100, 2000]),
  flashOff: time('Flash dark', common(400), [100, 2000]),
  walkingSpeed: fact(1.2, 'memory', 'Traffic Signs Manual chapter 6, from memory'),
};

const BS8442 = 'BS 8442:2015 clause 12, as three others quote it';

export const zebra: ZebraPractice = {
  exists: fact(true, 'seen', 'TSRGD 2016, Schedule 14 Part 4'),
  on: fixed('Lit', fact(750, 'quoted', BS8442), [100, 5000]),
  off: fixed('Dark', fact(750, 'quoted', BS8442), [100, 5000]),
  fault: common('dark'),
};
