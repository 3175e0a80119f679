/** What flows through a lamp and its resistor, and how large the resistor must be built. */

import { FIRST_BIT } from '../layout/wiring/numbers.ts';
import { common, type Fact, fact } from '../practice/fact.ts';
import { baseOf } from './drivers.ts';
import { branchesOf, headroom } from './lamp-circuit.ts';
import type { LampCircuit, Load } from './model.ts';
import { PIN_LIMITS, POWER_REGISTER, SHIFT_REGISTER, SMALL_TRANSISTOR } from './profiles/limits.ts';
import { BOARD_VOLTS } from './usual.ts';

/** Usual power ratings, W; a resistor is used to half of it so that it stays cool between scenery and plastic. */
export const RATINGS: Fact<readonly number[]> = common([0.125, 0.25, 0.5, 1, 2]);
export const POWER_MARGIN = common(2);

/** Copper wire, ohms a metre. */
export const WIRES: Readonly<Record<'7/0.2' | '28 AWG' | '30 AWG', Fact<number>>> = {
  '7/0.2': fact(0.0835, 'quoted', 'makers of 7/0.2 mm equipment wire: about 83.5 ohms a kilometre'),
  '28 AWG': fact(0.2129, 'seen', 'AWG wire tables: 212.9 ohms a kilometre'),
  '30 AWG': fact(0.3385, 'seen', 'AWG wire tables: 338.5 ohms a kilometre'),
};

/** There and back over so many metres each way, V. */
export function wireDrop(milliamps: number, metres: number, wire: keyof typeof WIRES): number {
  return (milliamps / 1000) * WIRES[wire].value * 2 * metres;
}

export interface BranchFigures {
  /** Most that flows in one branch, mA: the output drops nothing. */
  readonly milliamps: number;
  /** In the resistor, W; 0 where there is none or it is in the lamp. */
  readonly watts: number;
  /** The next usual rating with its margin, W; null for none, or beyond them all. */
  readonly rating: number | null;
}

/** One branch: the LEDs that share a resistor, or a filament lamp. Without a known resistor the wanted current counts. */
export function branchFigures(circuit: LampCircuit): BranchFigures {
  const { resistor } = circuit;
  if (typeof resistor !== 'number') return { milliamps: circuit.milliamps, watts: 0, rating: null };
  const amps = Math.max(0, headroom(circuit)) / resistor;
  const watts = amps * amps * resistor;
  const rating = RATINGS.value.find((it) => it >= watts * POWER_MARGIN.value) ?? null;
  return { milliamps: amps * 1000, watts, rating };
}

/**
 * What an output may drop for each mA, ohms: by the data sheet at its test current, so the worst of a good chip.
 * 74HC595: 4.5 V less the least high output of 3.7 V at 6 mA (Philips, 2003). 0 behind a transistor.
 */
export function outputOhms(load: Load): number {
  if (load.circuit.driver === 'transistor') return 0;
  if (load.circuit.driver === 'power-register') return POWER_REGISTER.ohms.value;
  if (load.output >= FIRST_BIT) return (4.5 - 3.7) / (SHIFT_REGISTER.specified.value / 1000);
  const drop = load.activeLow ? PIN_LIMITS.greatestLow.value : 5 - PIN_LIMITS.leastHigh.value;
  return drop / (PIN_LIMITS.specified.value / 1000);
}

/** Least that flows in one branch, mA: output or driver drops as much as its data sheet allows, with all branches on it. */
export function leastMilliamps(load: Load): number {
  const { circuit } = load;
  if (typeof circuit.resistor !== 'number') return circuit.milliamps;
  const besides = outputOhms(load) * branchesOf(circuit).branches * load.heads.length;
  const lost = circuit.driver === 'transistor' ? SMALL_TRANSISTOR.saturated.value : 0;
  return (Math.max(0, headroom(circuit) - lost) / (circuit.resistor + besides)) * 1000;
}

export interface LoadCurrents {
  /** Through the lamps of all heads, from what feeds them, mA. */
  readonly lamps: number;
  /** Through the output itself, mA; nothing to speak of where a power register carries the lamps. */
  readonly output: number;
}

/** Most that flows while the lamp is lit. `boardVolts`: what a pin gives when high, V. */
export function loadCurrents(load: Load, boardVolts: number = BOARD_VOLTS.value): LoadCurrents {
  const { circuit } = load;
  const lamps = branchFigures(circuit).milliamps * branchesOf(circuit).branches * load.heads.length;
  if (circuit.driver === 'direct') return { lamps, output: lamps };
  if (circuit.driver === 'transistor') return { lamps, output: baseOf(lamps, boardVolts, 'E12').milliamps };
  return { lamps, output: 0 };
}
