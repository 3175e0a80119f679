/** Road lights at level crossings of the United Kingdom. */
import { common, type FlashRule, fact, time } from '../fact.ts';
import type { LevelCrossingPractice } from '../kinds.ts';
import { HANDBOOK_FLASH, MOTOR_1969, UK_TOLERANCE } from './sources.ts';

const NI = 'NI SR 2023/9 Sch. 2 para 11: amber for about 3 s, then flashing reds';

const flash = fact(400, 'seen', HANDBOOK_FLASH);

const flashRate: FlashRule = {
  perMinute: fact([60, 90], 'memory', 'the rate of motorway reds (TSR 1994 reg. 30(6)(a)); at crossings from memory'),
  lit: null,
};

export const levelCrossing: LevelCrossingPractice = {
  exists: fact(true, 'seen', NI),
  amber: {
    ...time('Amber', fact(3000, 'seen', NI), [1000, 10000]),
    range: fact([2000, 4000], 'derived', `${NI}; about taken as within 1 s, wider than ${UK_TOLERANCE.source}`),
  },
  reds: fact('alternating', 'seen', NI),
  leastRed: time('Least red', common(10000), [1000, 255000]),
  flashOn: time('Flash lit', flash, [100, 2000]),
  flashOff: time('Flash dark', flash, [100, 2000]),
  flashRate,
};

/** First crossing of the kind 1961; the amber came in September 1969. */
export const levelCrossing1965: LevelCrossingPractice = {
  ...levelCrossing,
  exists: fact(true, 'seen', `${MOTOR_1969}: first crossing 1961`),
  amber: null,
  reds: fact('alternating', 'seen', `${MOTOR_1969}: flashing reds only, amber added in September 1969`),
  flashOn: time(
    'Flash lit',
    fact(400, 'assumed', `not found for the 1960s; assumed as today (${flash.source})`),
    [100, 2000],
  ),
  flashOff: time(
    'Flash dark',
    fact(400, 'assumed', `not found for the 1960s; assumed as today (${flash.source})`),
    [100, 2000],
  ),
};
