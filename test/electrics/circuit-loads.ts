/** Loads for tests of the circuit: one LED each unless told otherwise. */
import type { LampCircuit, Load } from '../../shared/electrics/model.ts';

const LED: LampCircuit = {
  driver: 'direct',
  source: 'led',
  volts: 5,
  forward: 1.9,
  milliamps: 5,
  count: 1,
  wired: 'parallel',
  resistor: 620,
  isGiven: true,
};

export function loadAt(
  lamp: number,
  output: number,
  circuit: Partial<LampCircuit> = {},
  rest: Partial<Load> = {},
): Load {
  return {
    lamp,
    output,
    outputName: output >= 128 ? `bit ${output - 128}` : output < 14 ? `D${output}` : `A${output - 14}`,
    site: 'quay',
    siteName: 'Quay',
    label: `Post ${lamp}`,
    colour: 'red',
    path: `sites[0].lamps[${lamp}]`,
    activeLow: false,
    wire: 'red',
    heads: [{ id: 'one', name: 'One' }],
    circuit: { ...LED, ...circuit },
    ...rest,
  };
}

export const TWO_HEADS = {
  heads: [
    { id: 'one', name: 'One' },
    { id: 'other', name: 'Other' },
  ],
};
