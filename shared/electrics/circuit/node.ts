/** One node of the network: outputs that are joined, and everything that hangs on them. */
import { rootOf } from './root.ts';

/** What an output does: driven low or high, pulled up weakly, or nothing. */
export type Drive = 0 | 1 | 'pulled' | 'free';

/** Ohms behind the output; null: it cannot drive that way (a switch to ground only, no pull-up). */
export interface Driver {
  readonly output: number;
  readonly highOhms: number | null;
  readonly lowOhms: number;
  readonly pullUpOhms: number | null;
  /** A chip's own input sits behind it: leaks, and keeps the wire within half a volt of its supply. */
  readonly isPin: boolean;
}

/** One way out of the node. */
export interface Tap {
  /** Amperes out of the node. Never falls with `volts`. */
  current(volts: number, supply: number): number;
  /** Amperes out of the board's own supply. */
  fromSupply(volts: number, supply: number): number;
}

export interface Node {
  readonly drivers: readonly Driver[];
  readonly taps: readonly Tap[];
  /** Highest voltage that feeds it from elsewhere; 0: none. */
  readonly fedVolts: number;
  readonly farads: number;
}

/** Where the diodes at a pin begin to conduct beyond its supply and below ground, V, and their resistance. */
const CLAMP_VOLTS = 0.6;
const CLAMP_OHMS = 20;
/** A node that nothing holds drifts to ground through this. */
const DRIFT_OHMS = 1e9;

/** Amperes out of the node at `volts`; zero where it comes to rest. */
export function outflow(node: Node, drives: readonly Drive[], volts: number, supply: number, leak: number): number {
  let amps = volts / DRIFT_OHMS;
  for (const tap of node.taps) amps += tap.current(volts, supply);
  node.drivers.forEach((driver, index) => {
    const drive = driveOf(driver, drives[index]);
    if (drive === 1) amps += (volts - supply) / (driver.highOhms ?? DRIFT_OHMS);
    else if (drive === 0) amps += volts / driver.lowOhms;
    else if (drive === 'pulled') amps += (volts - supply) / (driver.pullUpOhms ?? DRIFT_OHMS);
    if (!driver.isPin) return;
    amps -= leak;
    if (volts > supply + CLAMP_VOLTS) amps += (volts - supply - CLAMP_VOLTS) / CLAMP_OHMS;
    else if (volts < -CLAMP_VOLTS) amps += (volts + CLAMP_VOLTS) / CLAMP_OHMS;
  });
  return amps;
}

/** Voltage at which the node comes to rest. */
export function restingVolts(node: Node, drives: readonly Drive[], supply: number, leak: number): number {
  const top = Math.max(supply, node.fedVolts) + 1;
  return rootOf((volts) => outflow(node, drives, volts, supply, leak), -1, top);
}

/** Steps of the way there. */
const STEPS = 64;

/** Voltage `seconds` after it was `from`, charged through what drives it; implicit steps, so that none overshoots. */
export function driftingVolts(
  node: Node,
  drives: readonly Drive[],
  supply: number,
  leak: number,
  from: number,
  seconds: number,
): number {
  const goal = restingVolts(node, drives, supply, leak);
  if (seconds <= 0) return from;
  if (node.farads <= 0) return goal;
  let volts = from;
  // The way is quick at first and slow later: each step is a little longer than the one before.
  const ratio = 1.05;
  let step = (seconds * (ratio - 1)) / (ratio ** STEPS - 1);
  for (let count = 0; count < STEPS; count++) {
    const before = volts;
    const rate = node.farads / step;
    const [low, high] = goal < before ? [goal, before] : [before, goal];
    volts = rootOf((at) => outflow(node, drives, at, supply, leak) + rate * (at - before), low, high);
    step *= ratio;
  }
  return volts;
}

/** Amperes that outputs and lamps of the node take from the board's supply. */
export function supplyAmps(node: Node, drives: readonly Drive[], volts: number, supply: number): number {
  let amps = 0;
  for (const tap of node.taps) amps += tap.fromSupply(volts, supply);
  node.drivers.forEach((driver, index) => {
    const drive = driveOf(driver, drives[index]);
    if (drive === 1) amps += (supply - volts) / (driver.highOhms ?? DRIFT_OHMS);
    else if (drive === 'pulled') amps += (supply - volts) / (driver.pullUpOhms ?? DRIFT_OHMS);
  });
  return amps;
}

/** What the driver makes of it. A switch to ground sinks on 1; bits have no pull-up. */
function driveOf(driver: Driver, drive: Drive = 'free'): Drive {
  if (driver.highOhms === null) return drive === 1 ? 0 : 'free';
  return drive === 'pulled' && driver.pullUpOhms === null ? 'free' : drive;
}
