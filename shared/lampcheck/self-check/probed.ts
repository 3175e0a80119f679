/** What a probe can be asked about at all. */

import type { Load } from '../../electrics/model.ts';
import { FIRST_BIT } from '../../layout/wiring/numbers.ts';
import { LEAST_VOLTS, MOST_VOLTS } from './limits.ts';

/** Pin with the board's own LED; the serial line. */
const OWN_LED = 13;
const LAST_SERIAL = 1;

export function isAnalogue(load: Load): boolean {
  return load.output < FIRST_BIT && load.outputName.startsWith('A');
}

/** Why the chip cannot tell anything of what hangs there, as a sentence; null: it can be probed. */
export function whyNotProbed(load: Load): string | null {
  const { circuit, output, outputName } = load;
  if (output >= FIRST_BIT) return 'Outputs of shift registers cannot be measured: the chip sees only its own pins.';
  if (output <= LAST_SERIAL) return `${outputName} is the line to the computer.`;
  if (output === OWN_LED) return `The board's own LED hangs on ${outputName} too and hides the lamp.`;
  if (circuit.driver !== 'direct') return 'The pin sees the base of its transistor, not the lamp behind it.';
  if (circuit.milliamps === 0) return 'A wire to another board hangs there, no lamp.';
  if (load.activeLow && !isAnalogue(load)) return 'A lamp that is lit by low can be measured on analogue pins only.';
  if (circuit.volts < LEAST_VOLTS || circuit.volts > MOST_VOLTS) {
    return `The readings are understood at ${LEAST_VOLTS} to ${MOST_VOLTS} V only, and this lamp is fed with ${circuit.volts} V.`;
  }
  return null;
}

/** LEDs or heads side by side: that one of them is dead does not show. */
export function isSeveral({ heads, circuit }: Load): boolean {
  return heads.length > 1 || (circuit.wired === 'parallel' && circuit.count > 1);
}

export function isSeries({ circuit }: Load): boolean {
  return circuit.source === 'led' && circuit.wired === 'series' && circuit.count > 1;
}
