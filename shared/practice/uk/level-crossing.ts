/** Road lights at level crossings of the United Kingdom. */
import { common, fact, time } from '../fact.ts';
import type { LevelCrossingPractice } from '../kinds.ts';
import { assumedTime, HANDBOOK_FLASH, MOTOR_1969 } from './sources.ts';

const NI = 'NI SR 2023/9 Sch. 2 para 11: amber for approximately 3 s, then intermittent reds';
const COMMITTEE = 'Traffic Signs Committee report 1963, ¶104: twin flashing red light signals';

const flash = fact(400, 'seen', HANDBOOK_FLASH);

export const levelCrossing: LevelCrossingPractice = {
  exists: fact(true, 'seen', NI),
  amber: {
    ...time('Amber', fact(3000, 'seen', NI), [1000, 10000]),
    // The law says "approximately"; a second more or less is our reading of it.
    range: fact([2000, 4000], 'derived', NI),
  },
  reds: fact('alternating', 'seen', NI),
  leastRed: time('Least red', common(10000), [1000, 255000]),
  flashOn: time('Flash lit', flash, [100, 2000]),
  flashOff: time('Flash dark', flash, [100, 2000]),
  // 60 to 90 a minute is law for the reds of motorways (TSR 1994 reg. 30(6)(a)); for crossings it was not found.
  flashRate: null,
};

/** First crossing of the kind 1961; the amber came in September 1969. */
export const levelCrossing1965: LevelCrossingPractice = {
  ...levelCrossing,
  exists: fact(true, 'seen', COMMITTEE),
  amber: null,
  reds: fact('alternating', 'seen', `${MOTOR_1969}: flashing reds only until then, now an amber before them`),
  flashOn: assumedTime(levelCrossing.flashOn),
  flashOff: assumedTime(levelCrossing.flashOff),
};
