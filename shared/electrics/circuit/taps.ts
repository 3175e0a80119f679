/** What hangs on an output, as ways out of its node. */
import type { LampCircuit } from '../model.ts';
import { type Branch, branchOf } from './branch.ts';
import type { Tap } from './node.ts';
import type { Parts } from './parts.ts';
import type { LoadWiring } from './wiring.ts';

/** Volts of the base of a transistor, and what one that is switched through still drops. Common figures, from memory. */
const BASE_VOLTS = 0.7;
const SATURATION_VOLTS = 0.2;

/** One head: its tap on the node, and the current of one of its LEDs (the greatest of them). */
export interface HeadTap {
  readonly tap: Tap;
  /** Amperes; for the voltage of the node. */
  readonly lampAmps: (volts: number, supply: number) => number;
}

/** Taps of the heads of a load; an open one has none. */
export function headTaps({ load, heads }: LoadWiring, parts: Parts): readonly (HeadTap | null)[] {
  const { circuit } = load;
  const copies = circuit.wired === 'parallel' ? circuit.count : 1;
  const feed = feedOf(circuit, parts);
  // Heads of one load share the base resistor of their transistor: its current is shared out here, too.
  const gainAmps = (volts: number) => baseAmps(volts, parts) * parts.gain;
  return heads.map((head, index) => {
    if (head.open && circuit.driver !== 'transistor') return null;
    const branch = head.open ? () => 0 : branchOf(circuit, head, parts);
    if (circuit.driver === 'transistor') return behind(branch, copies, feed, gainAmps, heads.length, index, parts);
    const fromFeed = load.activeLow || circuit.driver === 'power-register';
    return fromFeed ? hanging(branch, copies, feed) : standing(branch, copies);
  });
}

/** The wire of a load on the common one: ground, or what feeds its lamps. */
export function shortTap({ load }: LoadWiring, parts: Parts): Tap {
  const ohms = parts.touchOhms;
  const isHigh = load.circuit.driver !== 'transistor' && (load.activeLow || load.circuit.driver === 'power-register');
  if (!isHigh) return { current: (volts) => volts / ohms, fromSupply: () => 0 };
  const feed = feedOf(load.circuit, parts);
  const current = (volts: number, supply: number) => (volts - feed.volts(supply)) / ohms;
  return { current, fromSupply: (volts, supply) => (feed.isBoard ? -current(volts, supply) : 0) };
}

interface Feed {
  /** The lamps hang on the board's own supply. */
  readonly isBoard: boolean;
  volts(supply: number): number;
}

function feedOf(circuit: LampCircuit, parts: Parts): Feed {
  const isBoard = Math.abs(circuit.volts - parts.supplyVolts) < 0.3;
  return { isBoard, volts: (supply) => (isBoard ? supply : circuit.volts) };
}

/** Voltage of a feed of its own; 0: the board's. */
export function ownFeed(circuit: LampCircuit, parts: Parts): number {
  return feedOf(circuit, parts).isBoard ? 0 : circuit.volts;
}

/** Between output and ground. */
function standing(branch: Branch, copies: number): HeadTap {
  return {
    tap: { current: (volts) => copies * branch(volts), fromSupply: () => 0 },
    lampAmps: (volts) => branch(volts),
  };
}

/** Between its feed and the output: common anode. */
function hanging(branch: Branch, copies: number, feed: Feed): HeadTap {
  const amps = (volts: number, supply: number) => branch(feed.volts(supply) - volts);
  return {
    tap: {
      current: (volts, supply) => -copies * amps(volts, supply),
      fromSupply: (volts, supply) => (feed.isBoard ? copies * amps(volts, supply) : 0),
    },
    lampAmps: amps,
  };
}

/** Behind a transistor to ground: the output sees its base only. */
function behind(
  branch: Branch,
  copies: number,
  feed: Feed,
  gainAmps: (volts: number) => number,
  heads: number,
  index: number,
  parts: Parts,
): HeadTap {
  const amps = (volts: number, supply: number) => {
    const most = gainAmps(volts) / (copies * heads);
    return Math.min(most, Math.max(0, branch(feed.volts(supply) - SATURATION_VOLTS)));
  };
  return {
    tap: {
      // The first head carries the base for all.
      current: (volts) => (index === 0 ? baseAmps(volts, parts) : 0),
      fromSupply: (volts, supply) => (feed.isBoard ? copies * amps(volts, supply) : 0),
    },
    lampAmps: amps,
  };
}

function baseAmps(volts: number, parts: Parts): number {
  return Math.max(0, volts - BASE_VOLTS) / parts.baseOhms;
}
