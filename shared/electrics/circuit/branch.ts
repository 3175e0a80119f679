/** One branch of a lamp: its LEDs or its filament with their resistor, as a current for a voltage. */
import { branchesOf } from '../lamp-circuit.ts';
import type { LampCircuit } from '../model.ts';
import { diodeThrough, filamentAmps, forwardAmps } from './diode.ts';
import type { Parts } from './parts.ts';
import { rootOf } from './root.ts';

/** Amperes through one branch for the volts across it, the way the lamp is meant to be fed; never falling. */
export type Branch = (volts: number) => number;

export interface BranchFaults {
  readonly reversed: boolean;
  readonly noResistor: boolean;
  readonly dim: boolean;
}

/** What the dim fault makes of the resistor. */
const DIM_TIMES = 10;

export function branchOf(circuit: LampCircuit, faults: BranchFaults, parts: Parts): Branch {
  // A wire to another board: nothing to be lit.
  if (circuit.milliamps === 0) return () => 0;
  const forward = circuit.source === 'filament' ? filament(circuit, faults) : leds(circuit, faults, parts);
  if (!faults.reversed || circuit.source === 'filament') return forward;
  return (volts) => -forward(-volts);
}

function leds(circuit: LampCircuit, faults: BranchFaults, parts: Parts): Branch {
  const amps = circuit.milliamps / 1000;
  const { chain } = branchesOf(circuit);
  const diode = diodeThrough(circuit.forward, amps, parts);
  const resistor = ohmsOf(circuit, faults, Math.max(0, circuit.volts - chain * circuit.forward) / amps);
  return (volts) => {
    if (volts >= 0) return forwardAmps(volts, diode, chain, resistor);
    return -parts.reverseAmps * Math.min(1, -volts / (5 * chain));
  };
}

function filament(circuit: LampCircuit, faults: BranchFaults): Branch {
  const amps = circuit.milliamps / 1000;
  const inside = typeof circuit.resistor === 'number' ? circuit.resistor * amps : 0;
  const rated = { volts: Math.max(0.5, circuit.volts - inside), amps };
  const resistor = ohmsOf(circuit, faults, 0, rated.volts / amps);
  if (resistor === 0) return (volts) => filamentAmps(volts, rated);
  return (volts) => {
    if (volts === 0) return 0;
    const across = rootOf(
      (drop) => filamentAmps(drop, rated) - (Math.abs(volts) - drop) / resistor,
      0,
      Math.abs(volts),
    );
    return Math.sign(volts) * filamentAmps(across, rated);
  };
}

/** `fitted`: ohms that give the wanted current; `instead`: what a dim joint is measured by where there is no resistor. */
function ohmsOf({ resistor }: LampCircuit, faults: BranchFaults, fitted: number, instead = fitted): number {
  const sound = resistor === 'fitted' ? fitted : (resistor ?? 0);
  const left = faults.noResistor ? 0 : sound;
  return faults.dim ? DIM_TIMES * (left || instead) : left;
}
