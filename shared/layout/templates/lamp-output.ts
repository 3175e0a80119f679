/** Where a template's lamp hangs: a pin by its name, or an output with all that is known of it. */
import type { Lamp, Pin } from '../outputs.ts';

export type LampOutput = Pin | Lamp;

export function outputOf(output: LampOutput): Lamp {
  return typeof output === 'object' ? output : { pin: output };
}
