/** What hangs on an output, and what feeds it. Extra-low voltage only. */
import { z } from 'zod';

/** Nothing on a layout is above this, V: well inside extra-low voltage (IEC 61140: 60 V DC), and what hobby parts are made for. */
export const MOST_VOLTS = 24;

const number = z.number({ error: (issue) => (issue.input === undefined ? undefined : 'not-a-figure') });

export const Volts = number.gt(0, { error: 'zero-volts' }).max(MOST_VOLTS, { error: 'too-many-volts' });
export const Milliamps = number.gt(0, { error: 'zero-milliamps' }).max(5000, { error: 'too-many-milliamps' });
export const Ohms = number.gt(0, { error: 'zero-ohms' }).max(10_000_000, { error: 'too-many-ohms' });

/** Insulation of a wire, by the colours of IEC 60757. */
export const WireColour = z.enum([
  'black',
  'brown',
  'red',
  'orange',
  'yellow',
  'green',
  'blue',
  'violet',
  'grey',
  'white',
  'pink',
  'turquoise',
]);

/** What is left out comes from the layout's usual lamps, then from data sheets by colour. */
export const LampElectrics = z.strictObject({
  /**
   * What switches the current. Default: the output itself. `transistor`: one behind the output;
   * `power-register`: the bit is one of a power shift register (sinks only).
   */
  driver: z.enum(['direct', 'transistor', 'power-register']).optional(),
  /** What feeds the lamp, V. Default: the supply of the board. */
  volts: Volts.optional(),
  /** Forward voltage of one LED, V. A filament lamp has none. */
  forward: Volts.optional(),
  /** Wanted current of one LED, or of the filament lamp, mA. */
  milliamps: Milliamps.optional(),
  /** LEDs of this lamp in each head. Default: 1. */
  count: z.number().int({ error: 'not-whole' }).min(1, { error: 'no-count' }).max(60, { error: 'no-count' }).optional(),
  /** Several of them: each with a resistor of its own, or one after the other behind one. Default: parallel. */
  wired: z.enum(['parallel', 'series']).optional(),
  /** Resistor that is there, ohms; `fitted`: inside the lamp as it was bought. Default: the one that is worked out. */
  resistor: z.union([z.literal('fitted'), Ohms]).optional(),
});

/** A usual lamp of this layout. */
export const UsualLamp = z.strictObject({ forward: Volts.optional(), milliamps: Milliamps.optional() });

/** For the whole layout. */
export const LayoutElectrics = z.strictObject({
  /** Series of resistors at hand (IEC 60063). Default: E12. */
  series: z.enum(['E12', 'E24']).optional(),
  /** By colour; what is left out comes from data sheets. */
  usual: z
    .strictObject({
      red: UsualLamp.optional(),
      amber: UsualLamp.optional(),
      green: UsualLamp.optional(),
      yellow: UsualLamp.optional(),
      white: UsualLamp.optional(),
      'warm-white': UsualLamp.optional(),
      blue: UsualLamp.optional(),
    })
    .optional(),
});

/** What feeds a board. */
export const BoardPower = z.strictObject({
  /** Default: usb. */
  from: z.enum(['usb', 'external']).optional(),
  /** Voltage of the board's own 5 V line, V. Default: 5. */
  volts: Volts.optional(),
  /** Most that the supply gives, mA. Default: 500 over USB; unknown for others. */
  milliamps: Milliamps.optional(),
});

export type WireColour = z.infer<typeof WireColour>;
export type LampElectrics = z.infer<typeof LampElectrics>;
export type LayoutElectrics = z.infer<typeof LayoutElectrics>;
export type BoardPower = z.infer<typeof BoardPower>;
