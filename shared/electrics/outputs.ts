/** Names of outputs, pins and bits alike. */
import type { Board } from '../layout/outputs.ts';
import { pinName } from '../signals/pins.ts';

/** Outputs from here on are bits of the chain, as in the board image. */
export const FIRST_BIT = 128;

/** What a person reads: `D5`, `A2`, `bit 12`. */
export function outputName(output: number, chip: Board['chip']): string {
  return output < FIRST_BIT ? pinName(output, chip) : `bit ${output - FIRST_BIT}`;
}
