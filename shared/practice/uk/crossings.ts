/** Signal-controlled crossings of the United Kingdom: with flashing amber, and without. */
import { common, type Fact, fact, type Span, type TimeRule, time } from '../fact.ts';
import type { CrossingPractice, PelicanPractice } from '../kinds.ts';
import { amber, redWithAmber } from './junction.ts';
import { HANDBOOK_FLASH, HANSARD_1977, HISTORIES, LTN, SI_1997 } from './sources.ts';

const recalled = <T>(value: T, period: string): Fact<T> => fact(value, 'memory', `${LTN}: period ${period}`);

/** A period known from memory only: a default, and no range that anything is held against. */
function period(name: string, letter: string, usual: number, dial: Span): TimeRule {
  return time(name, recalled(usual, letter), dial);
}

const flash = fact(400, 'derived', `${HANDBOOK_FLASH}; the same generator assumed for crossings`);
export const flashOn = time('Flash lit', flash, [100, 2000]);
export const flashOff = time('Flash dark', flash, [100, 2000]);

/** Vehicles go green, amber, red, flashing amber, green. None are built any more; many still stand. */
export const pelican: PelicanPractice = {
  exists: fact(true, 'seen', `${SI_1997} reg. 12: vehicle signals of pelican crossings; ${HISTORIES}`),
  vehicleGreen: period('Vehicle green', 'A', 20000, [1000, 255000]),
  amber,
  allRed: period('All red', 'C', 1000, [100, 20000]),
  steadyGreen: time('Green man', fact(7000, 'seen', HANSARD_1977), [1000, 60000]),
  heldFlashing: period('Flashing green man, traffic held', 'E', 0, [0, 20000]),
  flashing: time('Flashing green man', fact(10000, 'seen', HANSARD_1977), [1000, 60000]),
  clearance: period('Red man, flashing amber', 'G', 2000, [100, 20000]),
  flashOn,
  flashOff,
  flashRate: null,
  fault: common('dark'),
  safe: common('red'),
};

/** The kind with figures on the far side, or with figures at the button (1992) when a detector extends the clearance. */
export const crossing: CrossingPractice = {
  exists: fact(true, 'quoted', HISTORIES),
  vehicleGreen: time('Vehicle green', common(20000), [1000, 255000]),
  amber,
  allRedBefore: time('All red', common(1000), [100, 20000]),
  walk: time('Green man', common(6000), [1000, 60000]),
  clearance: time('Blackout', common(6000), [500, 60000]),
  pedestrianClearance: common('blackout'),
  allRedAfter: time('All red', common(1000), [100, 20000]),
  redWithAmber,
  extension: time('Longest extension', common(10000), [0, 60000]),
  flashOn,
  flashOff,
  flashRate: null,
  fault: common('dark'),
  safe: common('red'),
};
