/** How one lamp is made and fed: what the document says, filled in with what is usual. */
import type { Board, Lamp } from '../layout/outputs.ts';
import type { Layout } from '../layout/schema.ts';
import type { LampCircuit } from './model.ts';
import { nextGreater, type Series } from './preferred.ts';
import { BOARD_VOLTS, FILAMENT_MILLIAMPS, FORWARD, isColour, LED_MILLIAMPS, UNKNOWN_FORWARD } from './usual.ts';

/** A sync output without electrics of its own: a wire to another board, which takes no current to speak of. */
export const WIRE: LampCircuit = {
  driver: 'direct',
  source: 'filament',
  volts: BOARD_VOLTS.value,
  forward: 0,
  milliamps: 0,
  count: 1,
  wired: 'parallel',
  resistor: null,
  isGiven: false,
};

export function seriesOf(layout: Layout): Series {
  return layout.electrics?.series ?? 'E12';
}

/** `colour` is empty where the document does not say. */
export function circuitOf(layout: Layout, board: Board, lamp: Lamp, colour: string): LampCircuit {
  const told = lamp.electrics ?? {};
  const usual = isColour(colour) ? layout.electrics?.usual?.[colour] : undefined;
  // An LED may imitate the glow of a filament: then its forward voltage is given.
  const isFilament = (lamp.source ?? 'led') !== 'led' && told.forward === undefined;
  const forward = isFilament
    ? 0
    : (told.forward ?? usual?.forward ?? (isColour(colour) ? FORWARD[colour] : UNKNOWN_FORWARD).value);
  const milliamps =
    told.milliamps ?? (isFilament ? FILAMENT_MILLIAMPS.value : (usual?.milliamps ?? LED_MILLIAMPS.value));
  const count = told.count ?? 1;
  const made = {
    driver: told.driver ?? ('direct' as const),
    source: isFilament ? ('filament' as const) : ('led' as const),
    volts: told.volts ?? board.power?.volts ?? BOARD_VOLTS.value,
    forward,
    milliamps,
    count,
    wired: told.wired ?? ('parallel' as const),
  };
  if (told.resistor !== undefined) return { ...made, resistor: told.resistor, isGiven: true };
  return { ...made, resistor: isFilament ? null : resistorFor(made, seriesOf(layout)), isGiven: false };
}

/** LEDs one after the other in each branch, and branches of one head side by side. */
export function branchesOf(circuit: Pick<LampCircuit, 'count' | 'wired'>): { chain: number; branches: number } {
  return circuit.wired === 'series' ? { chain: circuit.count, branches: 1 } : { chain: 1, branches: circuit.count };
}

/** Volts left for the resistor of a branch; what the output itself drops is left to the safe side. */
export function headroom(circuit: Pick<LampCircuit, 'volts' | 'forward' | 'count' | 'wired'>): number {
  return circuit.volts - circuit.forward * branchesOf(circuit).chain;
}

type Asked = Pick<LampCircuit, 'volts' | 'forward' | 'count' | 'wired' | 'milliamps'>;

/** R = (Vs - n Vf) / I, next greater preferred value, ohms; null where the supply is too low. */
export function resistorFor(circuit: Asked, series: Series): number | null {
  const volts = headroom(circuit);
  // Below this the current would hang on the last tenth of a volt of LED and supply.
  if (volts < LEAST_HEADROOM) return null;
  return nextGreater(volts / (circuit.milliamps / 1000), series);
}

/** Least voltage across a resistor that still sets the current, V; common practice, no source. */
export const LEAST_HEADROOM = 0.3;
