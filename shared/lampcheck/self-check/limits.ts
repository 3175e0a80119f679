/**
 * Where readings of a probe are parted, as shares of the board's supply (reading / 1,024), each with room on both sides.
 * Derived for a supply of 4.5 to 5.5 V from the values of `electrics/circuit/facts.ts`;
 * test/lampcheck/self-check-limits.test.ts works them out again.
 */
import { HIGH_OHMS, LOW_OHMS } from '../../electrics/circuit/facts.ts';

/** Outside this supply the shares say something else, V: USB gives 4.4 to 5.25 V, and 16 MHz want 4.5 V. */
export const LEAST_VOLTS = 4.5;
export const MOST_VOLTS = 5.5;

/**
 * Active high, under the pull-up (20 to 50 kilohm).
 * Open: only leakage pulls the pin down, 1 uA through 50 kilohm, 0.05 V: at least 0.987. LEDs the wrong way round may
 * leak 10 uA by their data sheets: 0.55 V, at least 0.877, which is then nobody's.
 * A lamp: 1.35 V (deep red) of 5.5 V to 2.9 V (blue, white) of 4.5 V at 0.08 to 0.2 mA: 0.24 to 0.65. Those voltages are
 * from memory, hence the wide room. The base of a transistor that landed there by an exchange: below 0.2. A short: at most 0.25 mA through some ohms: below 0.005.
 */
export const HIGH_SIDE = { shortAtMost: 0.04, lampAtLeast: 0.22, lampAtMost: 0.75, openAtLeast: 0.9 } as const;

/**
 * Active low, let go for 12 to 20 us after it was pulled low.
 * Open: the pin stays low; 1 uA of leakage fills its bare 24 pF (pin and sampler) by 0.83 V at most: 0.185 at 4.5 V.
 * A lamp fills the wire until its current dies away near 1 uA: the supply less 1.0 V (red, of 5.5 V) to 2.8 V (of 4.5 V):
 * 0.38 to 0.82. A short: the supply itself.
 */
export const LOW_SIDE = { openAtMost: 0.2, lampAtLeast: 0.33, lampAtMost: 0.85, shortAtLeast: 0.93 } as const;

/**
 * Active low, driven: the lamp's current through the least resistance that a pin has (15 ohms, from memory) lifts it by
 * this share at least; leakage of 10 uA does not lift it by a thousandth, and the converter errs by two.
 */
export const CONDUCTS_AT_LEAST = 5 / 1024;

/** Active low, driven against a short: even the strongest pin is lifted by more than any lamp lifts it. */
export const SHORT_LIT_AT_LEAST = 0.15;

/** Planned currents above which a missing resistor does not stand out against the pin's own drop, mA. */
export const MOST_TOLD_MILLIAMPS = 10;

/** Resistors of 10 % and forward voltages a little below the plan's, and the two steps of the converter. */
const SPREAD = 1.35;

/** Most that a pin drops, as a share of the least supply, while its lamps take the planned current, mA. */
export function mostDrop(milliamps: number, activeLow: boolean): number {
  const ohms = (activeLow ? LOW_OHMS : HIGH_OHMS).value;
  return (SPREAD * (milliamps / 1000) * ohms) / LEAST_VOLTS;
}
