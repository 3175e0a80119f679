/** Wiring faults to practise on: chosen, or by chance. */
import type { Load, WiringFault } from '../../shared/electrics/model.ts';

export type FaultKind = WiringFault['kind'];

export const KINDS: readonly { readonly kind: FaultKind; readonly label: string; readonly pair: boolean }[] = [
  { kind: 'swapped', label: 'Wires exchanged', pair: true },
  { kind: 'open', label: 'Wire or lamp broken', pair: false },
  { kind: 'reversed', label: 'LED the wrong way round', pair: false },
  { kind: 'short', label: 'Short to the common wire', pair: false },
  { kind: 'noResistor', label: 'Resistor left out', pair: false },
  { kind: 'dim', label: 'Resistor too large', pair: false },
  { kind: 'bridged', label: 'Two wires touch', pair: true },
];

/** What can go wrong with a lamp: a filament has no right way round and may have no resistor. */
export function fits(kind: FaultKind, { circuit }: Load): boolean {
  if (kind === 'reversed') return circuit.source === 'led';
  return kind === 'noResistor' ? typeof circuit.resistor === 'number' : true;
}

export function makeFault(kind: FaultKind, lamp: number, other: number): WiringFault {
  return kind === 'swapped' || kind === 'bridged' ? { kind, lamp, with: other } : { kind, lamp };
}

/** So many faults, each on lamps of its own; `chance` gives numbers from 0 to below 1. Fewer where lamps run out. */
export function surprise(loads: readonly Load[], count: number, chance: () => number): WiringFault[] {
  const left = [...loads];
  const draw = (): Load | undefined => left.splice(Math.floor(chance() * left.length), 1)[0];
  const faults: WiringFault[] = [];
  while (faults.length < count) {
    const load = draw();
    if (!load) break;
    const possible = KINDS.filter(({ kind, pair }) => fits(kind, load) && (!pair || left.length > 0));
    // Exchanged wires are what happens most.
    const choice = chance() < 0.4 && left.length > 0 ? KINDS[0] : possible[Math.floor(chance() * possible.length)];
    if (!choice) continue;
    const other = choice.pair ? draw() : undefined;
    faults.push(makeFault(choice.kind, load.lamp, other?.lamp ?? load.lamp));
  }
  return faults;
}
