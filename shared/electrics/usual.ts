/** What a lamp is taken for where neither it nor the layout says more. */
import type { WireColour } from '../layout/electrics.ts';
import type { Colour, Lamp } from '../layout/outputs.ts';
import { COMMON, common, type Fact, fact } from '../practice/fact.ts';

/** Voltage of a board's own line, V. */
export const BOARD_VOLTS = common(5);

/**
 * Current of one LED, mA. LEDs of today are bright enough in a model with it, and four heads on one output keep
 * within the 20 mA for which pins are specified.
 */
export const LED_MILLIAMPS = common(5);

/** Current of one small filament lamp at its own voltage, mA. */
export const FILAMENT_MILLIAMPS = common(50);

const NEAR_5_MA = 'typical at 2 mA (Vishay 83030) and at 20 mA (Vishay 83005, 83006): ';

/**
 * Forward voltage of one LED by colour at a few mA, V. Where two figures are near, the smaller: a resistor for too
 * small a voltage lets less current through than wanted, never more.
 */
export const FORWARD: Readonly<Record<Colour, Fact<number>>> = {
  red: fact(1.9, 'seen', `${NEAR_5_MA}1.9 and 2.0 V`),
  amber: fact(2.4, 'seen', `${NEAR_5_MA}2.4 V at both`),
  yellow: fact(2.4, 'seen', `${NEAR_5_MA}2.4 V at both`),
  green: fact(2.6, 'seen', 'typical of pure green (InGaN) at 5 mA, data sheets; yellow-green is 1.9 V at 2 mA'),
  blue: fact(2.6, 'seen', 'typical of blue (InGaN) at 5 mA, data sheets'),
  white: fact(2.8, 'quoted', 'least of 2.8 to 3.4 V'),
  'warm-white': fact(2.8, 'quoted', 'least of 2.8 to 3.4 V'),
};

/** For a lamp whose colour nobody says, such as an indicator: the least of all, so that no current is above the wanted. */
export const UNKNOWN_FORWARD = fact(1.9, 'derived', `the least of all colours; ${COMMON}`);

const WIRES: Readonly<Record<Colour, WireColour>> = {
  red: 'red',
  amber: 'yellow',
  green: 'green',
  yellow: 'yellow',
  white: 'white',
  'warm-white': 'white',
  blue: 'blue',
};

/** Second lamps of one colour in one head, by the last word of their place: a wire of their own colour. */
const SECONDS: Readonly<Record<string, WireColour>> = { upperYellow: 'orange', right: 'orange' };

/** Usual wire: the colour of the lamp, and another one for the second lamp of that colour. Common practice, no source. */
export function wireOf(lamp: Lamp, colour: string, path: string): WireColour {
  if (lamp.wire !== undefined) return lamp.wire;
  const second = SECONDS[path.slice(path.lastIndexOf('.') + 1)];
  return second ?? (isColour(colour) ? WIRES[colour] : 'grey');
}

export function isColour(colour: string): colour is Colour {
  return Object.hasOwn(FORWARD, colour);
}
