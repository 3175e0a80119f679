/** What a digital input makes of a voltage. */
import { HIGH_AT_LEAST, LOW_AT_MOST } from './facts.ts';

/** What it reads where its data sheet promises nothing: always one, or as the function says. */
export type Undefined = 'low' | 'high' | (() => 0 | 1);

export function levelAt(volts: number, supply: number, undefinedZone: Undefined): 0 | 1 {
  if (volts <= LOW_AT_MOST.value * supply) return 0;
  if (volts >= HIGH_AT_LEAST.value * supply) return 1;
  if (typeof undefinedZone === 'function') return undefinedZone();
  return undefinedZone === 'high' ? 1 : 0;
}
