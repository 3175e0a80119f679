/**
 * Swapped wires, mended in the plan: each lamp gets the output that it really hangs on. Where that cannot be, and for
 * everything else that a check finds, a list says what to do with the soldering iron.
 */
import type { Load } from '../electrics/model.ts';
import type { Diagnosis, Swap } from './diagnose.ts';
import { lampText } from './lamps.ts';

export interface Mend {
  readonly swap: Swap;
  /** Why it is no matter of the plan; null when it is. */
  readonly obstacle: string | null;
}

/** The new output of a lamp, as in the board image. */
export interface NewOutput {
  readonly lamp: Load;
  readonly output: number;
  readonly outputName: string;
}

export function mendsOf({ swaps }: Diagnosis): Mend[] {
  return swaps.map((swap) => ({ swap, obstacle: obstacleTo(swap) }));
}

/** The outputs that change in a swap; a missing lamp gets the one that is left over. */
export function newOutputs({ moves, missing }: Swap): NewOutput[] {
  const found = moves.map(({ lamp, at }) => to(lamp, at));
  const end = moves.at(-1)?.lamp;
  return missing && end ? [...found, to(missing, end)] : found;
}

/** By place in the document, for all swaps that the plan can mend. */
export function replan(diagnosis: Diagnosis): ReadonlyMap<string, number> {
  const mended = mendsOf(diagnosis).filter(({ obstacle }) => obstacle === null);
  return new Map(mended.flatMap(({ swap }) => newOutputs(swap)).map(({ lamp, output }) => [lamp.path, output]));
}

function to(lamp: Load, { output, outputName }: Load): NewOutput {
  return { lamp, output, outputName };
}

function obstacleTo(swap: Swap): string | null {
  const lamps = [...swap.moves.flatMap(({ lamp, at }) => [lamp, at]), ...(swap.missing ? [swap.missing] : [])];
  const first = lamps[0];
  if (!first) return null;
  if (lamps.some(({ activeLow }) => activeLow !== first.activeLow)) {
    return 'Some of these lamps are lit when their output is high and some when it is low, so the wires have to be exchanged.';
  }
  if (lamps.some(({ circuit }) => circuit.driver !== first.circuit.driver)) {
    return 'Some of these lamps hang on the output itself and some behind a driver, so the wires have to be exchanged.';
  }
  if (lamps.some(({ circuit }) => circuit.volts !== first.circuit.volts)) {
    return 'These lamps are fed with different voltages, so the wires have to be exchanged.';
  }
  return null;
}

/** A resistor at the board's end of a wire stays there when lamps change places in the plan. */
export function resistorsToLookAt(swap: Swap): string | null {
  const differs = swap.moves.some(({ lamp, at }) => lamp.circuit.resistor !== at.circuit.resistor);
  return differs
    ? 'The resistors of these lamps differ. If yours sit at the board, see that each lamp still has the right one.'
    : null;
}

/** One line of the list for the soldering iron. */
export interface Repair {
  readonly lamp: Load;
  readonly what: string;
  /** What to do, and what to look at. */
  readonly cure: string;
}

/** Everything that the plan cannot mend; with `swapsToo` also what it could. */
export function repairsOf(diagnosis: Diagnosis, swapsToo = false): Repair[] {
  const swapped = mendsOf(diagnosis).filter(({ obstacle }) => swapsToo || obstacle !== null);
  return [
    ...swapped.flatMap(({ swap }) => swap.moves.map(({ lamp, at }) => wireRepair(lamp, at))),
    ...diagnosis.dark.map((lamp) => ({
      lamp,
      what: `${lampText(lamp)} at ${lamp.outputName} stays dark.`,
      cure: darkCure(lamp),
    })),
    ...diagnosis.dim.map((lamp) => ({
      lamp,
      what: `${lampText(lamp)} at ${lamp.outputName} is dim.`,
      cure: `Look for too large a resistor${ohms(lamp)} and for a bad joint.`,
    })),
    ...diagnosis.two.map(({ lamp, with: others }) => ({
      lamp,
      what: `${lampText(lamp)} at ${lamp.outputName} lights together with ${others.length === 0 ? 'another lamp' : others.map(lampText).join(' and ')}.`,
      cure: `Look for two wires or joints that touch: ${[lamp, ...others].map(wireAt).join(', ')}.`,
    })),
    ...diagnosis.strange.map(({ lamp, saw }) => ({
      lamp,
      what: `${lamp.outputName} lights ${saw.length === 0 ? 'another lamp' : saw.map(lampText).join(' and ')} instead of ${lampText(lamp)}.`,
      cure:
        saw.length === 0
          ? 'Which lamp it was is not known: check it again and point at it.'
          : `Look for wires that touch and for exchanged ones: ${[lamp, ...saw].map(wireAt).join(', ')}.`,
    })),
  ];
}

function wireRepair(lamp: Load, at: Load): Repair {
  return {
    lamp,
    what: `${lampText(lamp)} hangs on ${at.outputName}.`,
    cure: `The ${lamp.wire} wire at ${at.outputName} belongs on ${lamp.outputName}.`,
  };
}

function darkCure(lamp: Load): string {
  const round = lamp.circuit.source === 'led' ? 'the LED the wrong way round, ' : '';
  return `Look for an open joint, a broken wire, ${round}or a burnt-out lamp: ${wireAt(lamp)}.`;
}

function wireAt({ wire, outputName }: Load): string {
  return `the ${wire} wire at ${outputName}`;
}

function ohms({ circuit: { resistor } }: Load): string {
  return typeof resistor === 'number' ? ` (${resistor} ohms is meant)` : '';
}
