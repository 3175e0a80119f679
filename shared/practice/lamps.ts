/** Vehicle lamps, street lamps and fires: much the same everywhere. */
import { COMMON, common, type Fact, type FlashRule, fact, type TimeRule, time } from './fact.ts';
import type { LampPractice, Viewing } from './kinds.ts';

const MOT = 'UK MOT manual 1.5, quoted: 60 to 120 flashes a minute';
const R65 = 'UNECE R65, as guides quote it: 2 to 4 Hz';

const SEEN_ON_LAYOUTS = `${COMMON}: looks right on a layout`;
const looks = (ms: number): Fact<number> => fact(ms, 'common', SEEN_ON_LAYOUTS);

const indicatorRate: FlashRule = { perMinute: fact([60, 120], 'quoted', MOT), lit: null };
const emergencyRate: FlashRule = { perMinute: fact([120, 240], 'quoted', R65), lit: null };

/** Low and high ends of a random time. */
function random(name: string, low: number, high: number, most: number): readonly [TimeRule, TimeRule] {
  return [time(`${name}, shortest`, looks(low), [10, most]), time(`${name}, longest`, looks(high), [10, most])];
}

const [streetStaggerLow, streetStaggerHigh] = random('Pause to the next lamp', 500, 4000, 60000);
const [streetStrikeLow, streetStrikeHigh] = random('Flicker as it strikes', 40, 250, 2000);
const [weldingLow, weldingHigh] = random('Arc', 20, 90, 500);
const [weldingRestLow, weldingRestHigh] = random('Rest', 2000, 9000, 300000);
const [fireLow, fireHigh] = random('Flicker', 30, 250, 2000);

export const LAMPS: LampPractice = {
  // 88 a minute, half lit.
  indicatorOn: time('Lit', fact(340, 'derived', `${MOT}; 88 a minute, our choice`), [100, 2000]),
  indicatorOff: time('Dark', fact(340, 'derived', `${MOT}; 88 a minute, our choice`), [100, 2000]),
  indicatorRate,
  // 3.03 Hz.
  emergencyOn: time('Lit', fact(160, 'derived', `${R65}; 3 Hz, our choice`), [20, 1000]),
  emergencyOff: time('Dark', fact(170, 'derived', `${R65}; 3 Hz, our choice`), [20, 1000]),
  emergencyRate,
  doubleFlash: time('Flash', looks(40), [20, 500]),
  doublePause: time('Pause', looks(120), [20, 2000]),
  streetStaggerLow,
  streetStaggerHigh,
  streetStrikeLow,
  streetStrikeHigh,
  weldingLow,
  weldingHigh,
  weldingRestLow,
  weldingRestHigh,
  fireLow,
  fireHigh,
};

/** Half a minute to a minute and a half: who watches a layout sees a whole cycle and does not wait for it. */
export const VIEWING: Viewing = common([20000, 90000]);
