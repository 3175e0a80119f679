/** What hangs on the outputs of a board, as electrics, the lamp check and the wiring sheet see it. */
import type { WireColour } from '../layout/electrics.ts';

/** How one lamp of a head is made and fed; everything filled in. */
export interface LampCircuit {
  /** `direct`: the output carries the current itself. */
  readonly driver: 'direct' | 'transistor' | 'power-register';
  readonly source: 'led' | 'filament';
  /** What feeds the lamp, V. */
  readonly volts: number;
  /** Forward voltage of one LED, V; 0 for a filament. */
  readonly forward: number;
  /** Wanted current through one LED or filament, mA. */
  readonly milliamps: number;
  /** LEDs of one head on this output. */
  readonly count: number;
  readonly wired: 'parallel' | 'series';
  /**
   * Ohms of the resistor in each branch: the one that the document names, else the one that is worked out. `fitted`:
   * inside the lamp; null: none is needed (a filament), or none will do (the supply is too low, which is a finding).
   */
  readonly resistor: number | 'fitted' | null;
  /** The document names it, so it is there already. */
  readonly isGiven: boolean;
}

/** One output with everything on it. */
export interface Load {
  /** Number of the lamp in the table of the board. */
  readonly lamp: number;
  /** As in the board image: below 128 a pin, from 128 on a bit of the chain. */
  readonly output: number;
  /** What a person reads: `D5`, `A2`, `bit 12`. */
  readonly outputName: string;
  /** Id of the site; null for an indicator or a sync output. */
  readonly site: string | null;
  readonly siteName: string;
  /** Head, phase or lamp name. */
  readonly label: string;
  /** Empty where the document does not say (indicators, sync outputs). */
  readonly colour: string;
  /** Place of the output in the document. */
  readonly path: string;
  /** Lit when the output is low: common anode. */
  readonly activeLow: boolean;
  readonly wire: WireColour;
  /** Heads that hang on it side by side, each with a lamp as in `circuit`; never empty. More than one: a shared output. */
  readonly heads: readonly { readonly id: string; readonly name: string }[];
  readonly circuit: LampCircuit;
}

/** Something wrong with the wiring of a virtual layout, to practise on. Lamps by their number in the table. */
export type WiringFault =
  /** A broken wire or joint, an LED that is burnt out; `head`: only that of one head of a shared output. */
  | { readonly kind: 'open'; readonly lamp: number; readonly head?: number }
  /** The wire touches the common one: at the output, before any resistor. */
  | { readonly kind: 'short'; readonly lamp: number }
  /** The LEDs are the wrong way round. */
  | { readonly kind: 'reversed'; readonly lamp: number; readonly head?: number }
  /** The resistor was left out or is bridged. */
  | { readonly kind: 'noResistor'; readonly lamp: number }
  /** Ten times the resistor: it burns dimly. */
  | { readonly kind: 'dim'; readonly lamp: number }
  /** The wires of two outputs are exchanged. */
  | { readonly kind: 'swapped'; readonly lamp: number; readonly with: number }
  /** The wires of two outputs touch each other. */
  | { readonly kind: 'bridged'; readonly lamp: number; readonly with: number };

/** What a person would see of one head's lamp. */
export type Glow = 'dark' | 'dim' | 'lit' | 'bright';
