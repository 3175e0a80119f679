/** Published values of the United States and Germany. Times in ms. */
import type { Row } from '../published.ts';

const FDOT = 'MUTCD, quoted by FDOT Traffic Engineering Manual 3.6.1';
/** 50 to 60 flashes a minute, lit for half to two thirds. */
const FLASH = 'MUTCD 11th edition §4G.01 ¶01-02';
const CONFLICT = 'MUTCD 11th edition §4G.01 ¶05-06';
const WALK = 'MUTCD §4E.06';

export const USA_ROWS: readonly Row[] = [
  ['junction.amber.usual', 3000, FDOT],
  ['junction.amber.range', [3000, 6000], FDOT],
  // (60 + 16) / (1.47 × 35) = 1.477 s in the teaching example.
  ['junction.allRed.usual', 1500, '1.477 s, a teaching example'],
  ['junction.allRed.range', [0, 6000], FDOT],
  ['junction.allRed.dial', [100, 6000], FDOT],
  ['junction.fault', 'flashing-red', CONFLICT],
  ['pedestrian.exists', true, WALK],
  ['pedestrian.green.usual', 7000, WALK],
  // 35 ft at 3.5 ft/s.
  ['pedestrian.clearance.usual', 10000, WALK],
  ['pedestrian.shows', 'flashing-red', WALK],
  ['pedestrian.flashOn.usual', 500, FLASH],
  ['pedestrian.flashOff.usual', 500, FLASH],
  // 3.5 ft/s.
  ['pedestrian.walkingSpeed', 1.0668, WALK],
  ['crossing.exists', true, WALK],
  ['crossing.pedestrianClearance', 'flashing-red', WALK],
  ['crossing.flashRate.perMinute', [50, 60], FLASH],
  ['crossing.flashRate.lit', [1 / 2, 2 / 3], FLASH],
];

const VWV = 'VwV-StVO on §37, IX';
const RILSA = 'RiLSA';
const EBO = 'EBO, Anlage 5';

export const GERMANY_ROWS: readonly Row[] = [
  ['junction.order', ['red', 'red-with-amber', 'green', 'amber'], VWV],
  // 3 s at 50 km/h, 4 s at 60, 5 s at 70.
  ['junction.amber.usual', 3000, VWV],
  ['junction.amber.range', [3000, 5000], VWV],
  ['junction.redWithAmber.usual', 1000, VWV],
  ['junction.redWithAmber.range', [1000, 2000], VWV],
  ['junction.minGreen', 5000, RILSA],
  ['levelCrossing.exists', true, EBO],
  ['levelCrossing.reds', 'steady', EBO],
  ['shuttle.exists', true, RILSA],
  ['shuttle.amber.usual', 4000, RILSA],
  ['shuttle.minGreen', 5000, RILSA],
];

/** The same in every practice. */
export const LAMP_ROWS: readonly Row[] = [
  ['lamps.indicatorOn.usual', 340, 'UK MOT manual 1.5'],
  ['lamps.indicatorOff.usual', 340, 'UK MOT manual 1.5'],
  ['lamps.indicatorRate.perMinute', [60, 120], 'UK MOT manual 1.5'],
  ['lamps.emergencyOn.usual', 160, 'UNECE R65'],
  ['lamps.emergencyOff.usual', 170, 'UNECE R65'],
  // 2 to 4 Hz.
  ['lamps.emergencyRate.perMinute', [120, 240], 'UNECE R65'],
];
