/** The United States of America, today. */
import { COMMON, fact, type Practice } from './practice.ts';

const MUTCD = 'MUTCD 11th edition';
const FDOT = 'MUTCD, quoted by FDOT Traffic Engineering Manual 3.6.1';
const FLASH = `${MUTCD} §4G.01 ¶01-02: 50 to 60 a minute, lit half to two thirds`;
const MODEL_DIAL = `${COMMON}: model layouts shorten and stretch times`;

export const USA_TODAY: Practice = {
  id: 'usa-today',
  name: 'United States, today',
  drives: fact('right', 'common', COMMON),
  junction: {
    order: fact(['red', 'green', 'amber'], 'common', COMMON),
    amber: {
      name: 'Yellow',
      usual: fact(3000, 'seen', `${FDOT}: 3 to 6 s`),
      range: fact([3000, 6000], 'seen', FDOT),
      dial: fact([1000, 10000], 'common', MODEL_DIAL),
    },
    redWithAmber: null,
    allRed: {
      name: 'Red clearance',
      usual: fact(1500, 'derived', '(60 + 16) / (1.47 × 35) = 1.477 s, a teaching example, rounded'),
      range: fact([0, 6000], 'seen', `${FDOT}: at most 6 s`),
      dial: fact([100, 6000], 'seen', `${FDOT}: at most 6 s`),
    },
    minGreen: fact(5000, 'common', COMMON),
    green: {
      name: 'Green',
      usual: fact(15000, 'common', COMMON),
      range: null,
      dial: fact([1000, 255000], 'common', COMMON),
    },
    fault: fact(
      'flashing-red',
      'derived',
      `${MUTCD} §4G.01 ¶05-06: flash on a conflict; red on all approaches, our choice`,
    ),
    safe: fact('red', 'common', COMMON),
  },
  zebra: {
    exists: fact(false, 'common', COMMON),
    // The rate of other flashing beacons there: 60 a minute, half lit.
    on: {
      name: 'Lit',
      usual: fact(500, 'derived', FLASH),
      range: null,
      dial: fact([100, 5000], 'common', MODEL_DIAL),
    },
    off: {
      name: 'Dark',
      usual: fact(500, 'derived', FLASH),
      range: null,
      dial: fact([100, 5000], 'common', MODEL_DIAL),
    },
    fault: fact('dark', 'common', COMMON),
  },
};
