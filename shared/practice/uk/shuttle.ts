/** Portable signals at road works of the United Kingdom. */
import { common, fact, time } from '../fact.ts';
import type { ShuttlePractice } from '../kinds.ts';
import { amber, redWithAmber } from './junction.ts';

const GUIDE = 'DfT guide on portable signals, p. 5';

export const shuttle: ShuttlePractice = {
  exists: fact(true, 'seen', GUIDE),
  amber,
  allRed: time('Clearing time', common(8000), [1000, 120000]),
  redWithAmber,
  green: time('Green', common(20000), [1000, 255000]),
  minGreen: fact(12000, 'seen', `${GUIDE}: 7 or 12 s`),
  gap: time('Gap', common(3000), [100, 31800]),
  longest: fact(300, 'seen', `${GUIDE}: at most 300 m`),
  idle: fact('red', 'seen', `${GUIDE}: reverts to all red when idle`),
};
