/** Boards, and what hangs on their pins: lamps, buttons, detectors, switches. */
import { z } from 'zod';
import { BoardPower, LampElectrics, WireColour } from './electrics.ts';
import { Count, Id, Name, Percent, Seconds, SecondsOrZero } from './scalars.ts';

/** `"D5"`, `"A2"`, or the number of the pin as the board counts it. */
export const Pin = z.union([z.string(), z.number()]);

const sources = z.enum(['led', 'smallFilament', 'largeFilament']);

const lampFields = {
  pin: Pin.optional(),
  /** Instead of a pin: bit of the chain, 0 is output QA of the chip nearest to the board. */
  bit: Count.optional(),
  /** The lamp is lit when the output is low. Default: lit when high. */
  activeLow: z.boolean().optional(),
  /** Kind of light source. Default: led. */
  source: sources.optional(),
  /** Percent of full brightness. Default: 100. */
  brightness: Percent.optional(),
  /** Default: the colour that is usual for the lamp's. */
  wire: WireColour.optional(),
  electrics: LampElectrics.optional(),
};

/** One lamp on one output; exactly one of `pin` and `bit`. */
export const Lamp = z.strictObject(lampFields);

export const Colour = z.enum(['red', 'amber', 'green', 'white', 'blue', 'yellow', 'warm-white']);

/** A lamp with a name and a colour of its own. */
export const NamedLamp = z.strictObject({ id: Id, name: Name.optional(), colour: Colour, ...lampFields });

/** 74HC595 chips in a row behind one board. */
export const Chain = z.strictObject({
  chips: Count.min(1, { error: 'no-chips' }).max(255, { error: 'many-chips' }),
  data: Pin,
  clock: Pin,
  latch: Pin,
  /** Output enable; leave out where it is tied low. */
  enable: Pin.optional(),
});

export const Board = z.strictObject({
  id: Id,
  name: Name,
  chip: z.enum(['atmega328p', 'atmega2560']),
  chain: Chain.optional(),
  /** At power-on each lamp in turn is lit for this long, seconds. Default: no sweep. */
  sweep: Seconds.optional(),
  /** Percent of each lamp's brightness at night. Default: 100. */
  nightLevel: Percent.optional(),
  /** Default: USB at 5 V. */
  power: BoardPower.optional(),
  /** Inputs that switch the whole board. */
  switches: z.strictObject({ night: Id.optional(), off: Id.optional() }).optional(),
});

/** A button, a detector or a switch. */
export const Input = z.strictObject({
  id: Id,
  name: Name,
  board: Id,
  pin: Pin,
  /** Pressed means low. Default: true, the way a button to ground works. */
  activeLow: z.boolean().optional(),
  /** The chip's own pull-up. Default: true. */
  pullUp: z.boolean().optional(),
  /** A level counts when steady for this long, seconds, at most 0.25. Default: 0.02. */
  debounce: SecondsOrZero.optional(),
  /** A lamp that is lit while a demand waits. */
  indicator: Lamp.optional(),
});

/** A common cycle of several sites on one board. */
export const Group = z.strictObject({
  id: Id,
  name: Name,
  board: Id,
  /** Seconds. */
  cycle: Seconds,
  /** Limits of the cycle when it is nudged, seconds. */
  least: Seconds.optional(),
  greatest: Seconds.optional(),
  /** A lamp output that is high for 0.2 s at the start of each cycle. */
  syncOut: Lamp.optional(),
  /** An input whose rising edge starts the cycle. */
  syncIn: Id.optional(),
});

export type Pin = z.infer<typeof Pin>;
export type Lamp = z.infer<typeof Lamp>;
export type NamedLamp = z.infer<typeof NamedLamp>;
export type Colour = z.infer<typeof Colour>;
export type Chain = z.infer<typeof Chain>;
export type Board = z.infer<typeof Board>;
export type Input = z.infer<typeof Input>;
export type Group = z.infer<typeof Group>;
