/** Outputs for the lamps of a new site, and pins for its buttons and detectors. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { Input, Lamp } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { allotLamps, freeBits, freePins } from '../templates/pins.ts';
import { makeButton, makeDetector } from '../templates/road-parts.ts';

export interface InputWish {
  /** After the site's own: `button`, `near`. */
  readonly id: string;
  readonly name: string;
  readonly is: 'button' | 'detector';
}

export interface Allotted {
  /** One list for each head. */
  readonly lamps: readonly (readonly Lamp[])[];
  readonly inputs: readonly Input[];
}

interface Wish {
  readonly id: string;
  readonly name: string;
  readonly board: string;
  /** Lamps of each head. */
  readonly heads: readonly number[];
  readonly inputs: readonly InputWish[];
}

/** Its own LED pulls D13 down harder than the pull-up pulls it up (common practice, no source). */
const NOT_FOR_INPUTS = 'D13';

/** Free pins for buttons, detectors and switches, in the board's order. */
export function freeInputPins(layout: Layout, board: string): string[] {
  return freePins(layout, board).filter((pin) => pin !== NOT_FOR_INPUTS);
}

/** Inputs come from the board's last pins, so that lamps stay together at the first. */
export function allot(layout: Layout, { id, name, board, heads, inputs }: Wish): Allotted | { findings: Finding[] } {
  const pins = freeInputPins(layout, board);
  const taken = inputs.length === 0 ? [] : pins.slice(-inputs.length);
  const made = inputs.flatMap((input, index): Input[] => {
    const pin = taken[index];
    if (pin === undefined) return [];
    const make = input.is === 'button' ? makeButton : makeDetector;
    return [make({ id: `${id}-${input.id}`, name: `${name}, ${input.name}`.slice(0, 60), board, pin })];
  });
  const lamps = allotLamps({ ...layout, inputs: [...(layout.inputs ?? []), ...made] }, board, heads);
  if (lamps !== null && made.length === inputs.length) return { lamps, inputs: made };
  return { findings: [tooFew(layout, name, board, heads, inputs.length)] };
}

function tooFew(layout: Layout, name: string, board: string, heads: readonly number[], inputs: number): Finding {
  const index = layout.boards.findIndex((it) => it.id === board);
  const found = layout.boards[index];
  const lamps = heads.reduce((sum, head) => sum + head, 0);
  const free = freePins(layout, board).length;
  const bits = freeBits(layout, board).length;
  const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
  const needs = [counted(lamps, 'output'), ...(inputs === 0 ? [] : [counted(inputs, 'input')])].join(' and ');
  const has = bits === 0 ? `${free} free` : `${free} pins and ${bits} outputs of the chain free`;
  const larger = found?.chip === 'atmega328p' ? 'take a board with an ATmega2560' : 'put it on another board';
  return error('too-few-outputs', index < 0 ? 'boards' : `boards[${index}]`, {
    what: `${name} needs ${needs}; ${found?.name ?? board} has ${has}.`,
    why: 'Each lamp that lights by itself needs an output of its own, each button a pin.',
    cure: `Put a chain of shift registers on the board, ${larger}, or let heads that always show the same share outputs.`,
  });
}
