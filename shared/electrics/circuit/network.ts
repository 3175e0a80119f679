/**
 * The lamps of one board with their wires, as a network that can be asked what each output and each lamp does. Every
 * node touches only rails, so each is solved by itself; the supply that sags joins them.
 */

import { FIRST_BIT } from '../../layout/wiring/numbers.ts';
import type { Load, WiringFault } from '../model.ts';
import { type Drive, type Driver, driftingVolts, type Node, restingVolts, supplyAmps } from './node.ts';
import { type Parts, USUAL_PARTS } from './parts.ts';
import { rootOf } from './root.ts';
import { type HeadTap, headTaps, ownFeed, shortTap } from './taps.ts';
import { type LoadWiring, wiringOf } from './wiring.ts';

/** What an output does; asked for outputs of the network only. */
export type Drives = (output: number) => Drive;

interface Hung {
  readonly wired: LoadWiring;
  readonly node: number;
  readonly heads: readonly (HeadTap | null)[];
}

/** Steps in which the supply is told apart for what is remembered, V: far below what a lamp shows or the ADC sees. */
const GRAIN = 0.005;

export class Network {
  readonly loads: readonly Load[];
  readonly parts: Parts;
  /** All outputs that anything hangs on. */
  readonly outputs: readonly number[];
  private readonly nodes: Node[] = [];
  private readonly nodeOf = new Map<number, number>();
  private readonly hung: readonly Hung[];
  /** By node, drives and supply: volts. */
  private readonly known = new Map<string, number>();

  constructor(loads: readonly Load[], faults: readonly WiringFault[] = [], parts: Partial<Parts> = {}) {
    this.loads = loads;
    this.parts = { ...USUAL_PARTS, ...parts };
    const { loads: wired, touching } = wiringOf(loads, faults);
    this.outputs = [...new Set(loads.map(({ output }) => output))];
    const joined = new Map(touching.flatMap((group) => group.map((output) => [output, group] as const)));
    const driver = new Map(loads.map((load) => [load.output, this.driverOf(load)]));
    for (const output of this.outputs) {
      if (this.nodeOf.has(output)) continue;
      const ends = joined.get(output) ?? [output];
      for (const end of ends) this.nodeOf.set(end, this.nodes.length);
      const here = wired.filter((one) => ends.includes(one.output));
      this.nodes.push(
        this.nodeWith(
          ends.flatMap((end) => driver.get(end) ?? []),
          here,
        ),
      );
    }
    this.hung = wired.map((one) => ({
      wired: one,
      node: this.nodeOf.get(one.output) ?? 0,
      heads: headTaps(one, this.parts),
    }));
  }

  /** Volts of the board's supply under everything that the outputs drive now. */
  supply(drives: Drives): number {
    const { supplyVolts, supplyOhms } = this.parts;
    let supply = supplyVolts - supplyOhms * this.parts.boardAmps;
    for (let round = 0; round < 8; round++) {
      const next = this.supplyAfter(drives, supply);
      if (Math.abs(next - supply) < GRAIN / 10) return grained(next);
      supply = (supply + next) / 2;
    }
    // Overloaded so far that going there step by step would swing.
    return grained(rootOf((volts) => volts - this.supplyAfter(drives, grained(volts)), 0, supplyVolts));
  }

  /** Volts at an output once everything has settled; 0 where nothing is known of it. */
  volts(output: number, drives: Drives, supply: number): number {
    const node = this.nodeOf.get(output);
    return node === undefined ? 0 : this.nodeVolts(node, drives, supply);
  }

  /** Volts at a released or weakly held output, `seconds` after it was at `from`. */
  drift(output: number, drives: Drives, supply: number, from: number, seconds: number): number {
    const node = this.nodes[this.nodeOf.get(output) ?? -1];
    if (!node) return 0;
    return driftingVolts(node, this.drivesAt(node, drives), supply, this.parts.leakAmps, from, seconds);
  }

  /** Outputs whose wires touch that of this one, itself too. */
  together(output: number): readonly number[] {
    return this.nodes[this.nodeOf.get(output) ?? -1]?.drivers.map((driver) => driver.output) ?? [];
  }

  /** By load and head, amperes of one of its LEDs or of its filament. */
  lampAmps(drives: Drives, supply: number): number[][] {
    return this.hung.map(({ node, heads }) => {
      const volts = this.nodeVolts(node, drives, supply);
      return heads.map((head) => head?.lampAmps(volts, supply) ?? 0);
    });
  }

  /** What is left of the supply if its load were that at `supply`. */
  private supplyAfter(drives: Drives, supply: number): number {
    const { supplyVolts, supplyOhms, boardAmps } = this.parts;
    let amps = boardAmps;
    for (let node = 0; node < this.nodes.length; node++) amps += this.nodeAmps(node, drives, supply);
    return Math.max(0, supplyVolts - supplyOhms * amps);
  }

  private driverOf({ output, circuit }: Load): Driver {
    const { parts } = this;
    const isPin = output < FIRST_BIT;
    if (isPin) {
      const ohms = { highOhms: parts.pinHighOhms, lowOhms: parts.pinLowOhms, pullUpOhms: parts.pullUpOhms };
      return { output, ...ohms, isPin };
    }
    if (circuit.driver === 'power-register') {
      return { output, highOhms: null, lowOhms: parts.sinkOhms, pullUpOhms: null, isPin };
    }
    return { output, highOhms: parts.chainHighOhms, lowOhms: parts.chainLowOhms, pullUpOhms: null, isPin };
  }

  private nodeWith(drivers: readonly Driver[], here: readonly LoadWiring[]): Node {
    const { parts } = this;
    const taps = here.flatMap((one) => [
      ...headTaps(one, parts).flatMap((head) => head?.tap ?? []),
      ...(one.short ? [shortTap(one, parts)] : []),
    ]);
    const fedVolts = Math.max(0, ...here.map(({ load }) => ownFeed(load.circuit, parts)));
    return { drivers, taps, fedVolts, farads: parts.farads * drivers.length };
  }

  private drivesAt(node: Node, drives: Drives): Drive[] {
    return node.drivers.map(({ output }) => drives(output));
  }

  private nodeVolts(index: number, drives: Drives, supply: number): number {
    const node = this.nodes[index];
    if (!node) return 0;
    const at = this.drivesAt(node, drives);
    const key = `${index} ${Math.round(supply / GRAIN)} ${at.join()}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const volts = restingVolts(node, at, grained(supply), this.parts.leakAmps);
    this.known.set(key, volts);
    return volts;
  }

  private nodeAmps(index: number, drives: Drives, supply: number): number {
    const node = this.nodes[index];
    if (!node) return 0;
    return supplyAmps(node, this.drivesAt(node, drives), this.nodeVolts(index, drives, supply), supply);
  }
}

function grained(supply: number): number {
  return Math.round(supply / GRAIN) * GRAIN;
}
