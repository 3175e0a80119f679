/** Signal-controlled crossings of the United Kingdom: with flashing amber, and without. */
import { common, type Fact, type FlashRule, fact, type Span, type TimeRule, time } from '../fact.ts';
import type { CrossingPractice, PelicanPractice } from '../kinds.ts';
import { amber, redWithAmber } from './junction.ts';
import { HANDBOOK_FLASH, HANSARD_1977, HISTORIES, LTN } from './sources.ts';

const recalled = <T>(value: T, period: string): Fact<T> => fact(value, 'memory', `${LTN}: period ${period}`);

/** A period known from memory only: a default without a range to be warned about. */
function period(name: string, letter: string, usual: number, dial: Span): TimeRule {
  return time(name, recalled(usual, letter), dial);
}

const flash = fact(400, 'derived', `${HANDBOOK_FLASH}; the same generator assumed for crossings`);
export const flashOn = time('Flash lit', flash, [100, 2000]);
export const flashOff = time('Flash dark', flash, [100, 2000]);

/** Seen for the reds of motorways; taken over for everything that the same generator flashes. */
export const flashRate: FlashRule = {
  perMinute: fact(
    [60, 90],
    'assumed',
    'Traffic Signs Regulations 1994 reg. 30(6)(a) for motorway reds; assumed as today',
  ),
  lit: null,
};

export const pelican: PelicanPractice = {
  exists: fact(true, 'quoted', HISTORIES),
  vehicleGreen: period('Vehicle green', 'A', 20000, [1000, 255000]),
  amber,
  allRed: period('All red', 'C', 1000, [100, 20000]),
  steadyGreen: time('Green man', fact(7000, 'seen', HANSARD_1977), [1000, 60000]),
  heldFlashing: period('Flashing green man, traffic held', 'E', 0, [0, 20000]),
  flashing: time('Flashing green man', fact(10000, 'seen', HANSARD_1977), [1000, 60000]),
  clearance: period('Red man, flashing amber', 'G', 2000, [100, 20000]),
  flashOn,
  flashOff,
  flashRate,
  fault: common('dark'),
  safe: common('red'),
};

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
