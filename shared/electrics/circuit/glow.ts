/** What a person would see of a lamp, from its current. */
import type { Glow, LampCircuit } from '../model.ts';
import type { Drives, Network } from './network.ts';

/**
 * Shares of the wanted current at which an LED counts as dark, dim and bright: below a fiftieth it is lost in the light
 * of a room, below two fifths a person who compares it with its neighbours sees it, and so from 1.8 times on.
 * Common practice, no source.
 */
const LED = { dark: 0.02, dim: 0.4, bright: 1.8 } as const;
/** The light of a filament follows a high power of its current. Common practice, no source. */
const FILAMENT = { dark: 0.35, dim: 0.75, bright: 1.25 } as const;

/** `amps` of one LED or filament. */
export function glowOf(circuit: LampCircuit, amps: number): Glow {
  if (circuit.milliamps === 0) return 'dark';
  const share = (1000 * amps) / circuit.milliamps;
  const limits = circuit.source === 'led' ? LED : FILAMENT;
  if (share < limits.dark) return 'dark';
  if (share < limits.dim) return 'dim';
  return share > limits.bright ? 'bright' : 'lit';
}

/** By load and head. */
export function glowOfAll(network: Network, drives: Drives): Glow[][] {
  const amps = network.lampAmps(drives, network.supply(drives));
  return network.loads.map(({ circuit }, load) => (amps[load] ?? []).map((one) => glowOf(circuit, one)));
}
