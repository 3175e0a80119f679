/** Published values of the United Kingdom. Times in ms. */
import type { Row } from '../published.ts';

const TAL2 = 'Traffic Advisory Leaflet 1/06 part 2';
/** Published times hold within 250 ms. */
const TAL4 = 'Traffic Advisory Leaflet 1/06 part 4, diagram 1';
const HANDBOOK = '667/HB/32900, p. 72-73, 88-89';
const FLASHER = '667/HB/32900 §28.5.3';
const BS8442 = 'BS 8442:2015 clause 12';
const CROSSINGS = 'several histories of crossings';
const HANSARD = 'Hansard, HC 28 Jul 1977 c1399';
const NI = 'NI SR 2023/9 Sch. 2 para 11';
const PORTABLE = 'DfT guide on portable signals, p. 5';
const GLOSSARY = 'Network Rail glossary';

export const UK_TODAY_ROWS: readonly Row[] = [
  ['junction.order', ['red', 'red-with-amber', 'green', 'amber'], 'Traffic Signs Regulations 1994, reg. 30(4)'],
  ['junction.amber.usual', 3000, TAL2],
  ['junction.amber.range', [2750, 3250], TAL4],
  ['junction.redWithAmber.usual', 2000, TAL2],
  ['junction.redWithAmber.range', [1750, 2250], TAL4],
  // Worked interstage of 5 s: nothing is left beside amber 3 and red with amber 2.
  ['junction.allRed.usual', 0, 'Traffic Advisory Leaflet 1/06'],
  // Intergreen 0 to 199 s, maximum green 0 to 255 s; the least is ours, a model's.
  ['junction.allRed.dial', [100, 199000], HANDBOOK],
  ['junction.green.dial', [1000, 255000], HANDBOOK],
  ['zebra.exists', true, 'TSRGD 2016, Schedule 14 Part 4'],
  ['zebra.on.usual', 750, BS8442],
  ['zebra.off.usual', 750, BS8442],
  ['zebra.on.range', [500, 1000], TAL4],
  ['zebra.off.range', [500, 1000], TAL4],
  ['pelican.exists', true, 'SI 1997/2400 reg. 12'],
  ['pelican.steadyGreen.usual', 7000, HANSARD],
  ['pelican.flashing.usual', 10000, HANSARD],
  ['pelican.flashOn.usual', 400, FLASHER],
  ['pelican.flashOff.usual', 400, FLASHER],
  ['crossing.exists', true, CROSSINGS],
  ['levelCrossing.exists', true, NI],
  ['levelCrossing.amber.usual', 3000, NI],
  ['levelCrossing.amber.range', [2000, 4000], NI],
  ['levelCrossing.reds', 'alternating', NI],
  ['levelCrossing.flashOn.usual', 400, FLASHER],
  ['levelCrossing.flashOff.usual', 400, FLASHER],
  ['shuttle.exists', true, PORTABLE],
  ['shuttle.minGreen', 12000, PORTABLE],
  ['shuttle.longest', 300, PORTABLE],
  ['shuttle.idle', 'red', PORTABLE],
  ['railway.exists', true, GLOSSARY],
  // Red: next section occupied; yellow: next clear; double yellow: two clear; green: three clear.
  ['railway.aspects', ['red', 'yellow', 'double-yellow', 'green'], GLOSSARY],
  ['railway.fourAspectHead', ['yellow', 'green', 'yellow', 'red'], GLOSSARY],
];

const COMMITTEE = 'Traffic Signs Committee report 1963';

export const UK_1965_ROWS: readonly Row[] = [
  ['zebra.exists', true, `${COMMITTEE}, ¶252, 255`],
  ['pelican.exists', false, CROSSINGS],
  ['crossing.exists', false, CROSSINGS],
  ['levelCrossing.exists', true, `${COMMITTEE}, ¶104`],
  ['levelCrossing.reds', 'alternating', 'Commercial Motor, 19 Sep 1969, p. 31'],
];
