/**
 * A probe on paper: the network through the steps of firmware/PROTOCOL.md chapter 5, without a chip. What the emulator
 * must agree with, and quick enough for many thousands.
 */
import { levelAt, type Undefined } from '../../shared/electrics/circuit/levels.ts';
import { Network } from '../../shared/electrics/circuit/network.ts';
import type { Drive } from '../../shared/electrics/circuit/node.ts';
import type { Parts } from '../../shared/electrics/circuit/parts.ts';
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import { isAnalogue } from '../../shared/lampcheck/self-check/probed.ts';
import { FIRST_BIT } from '../../shared/layout/wiring/numbers.ts';
import type { PinReading } from '../../shared/link/requests.ts';

export interface Conditions {
  readonly parts: Partial<Parts>;
  readonly undefinedZone: 'low' | 'high';
  /** Of 1,024. */
  readonly adcError: number;
}

export const PLAIN: Conditions = { parts: {}, undefinedZone: 'low', adcError: 0 };

/** Pulled up before the level is read, s. */
const SETTLE = 100e-6;
/** From the letting go to the sample, s: one and a half clocks of 125 kHz. */
const SAMPLE = 12e-6;

/** Output of a load that is dark. */
export function restOf(load: Load): Drive {
  return load.activeLow ? 1 : 0;
}

export class PaperBoard {
  readonly network: Network;
  private readonly conditions: Conditions;
  private readonly rest: ReadonlyMap<number, Drive>;

  constructor(loads: readonly Load[], faults: readonly WiringFault[], conditions: Conditions) {
    this.conditions = conditions;
    this.network = new Network(loads, faults, conditions.parts);
    this.rest = new Map(loads.map((load) => [load.output, restOf(load)]));
  }

  probe(load: Load): PinReading {
    if (load.output >= FIRST_BIT) return { level: null, rest: null, lit: null };
    return load.activeLow ? this.activeLow(load) : this.activeHigh(load);
  }

  private activeHigh(load: Load): PinReading {
    const { output } = load;
    const pulled = this.with(output, 'pulled');
    const level = levelAt(this.after(output, 0, pulled, SETTLE), this.network.supply(pulled), this.zone);
    if (!isAnalogue(load)) return { level, rest: null, lit: null };
    const rest = this.reading(this.after(output, 0, pulled, SETTLE + SAMPLE), pulled);
    const driven = this.with(output, 1);
    return { level, rest, lit: this.reading(this.network.volts(output, driven, this.network.supply(driven)), driven) };
  }

  private activeLow(load: Load): PinReading {
    const { output } = load;
    if (!isAnalogue(load)) return { level: null, rest: null, lit: null };
    const driven = this.with(output, 0);
    const low = this.network.volts(output, driven, this.network.supply(driven));
    const free = this.with(output, 'free');
    return {
      level: null,
      rest: this.reading(this.after(output, low, free, SAMPLE), free),
      lit: this.reading(low, driven),
    };
  }

  /** Volts after so many seconds; at once where another output that touches it drives. */
  private after(output: number, from: number, drives: (output: number) => Drive, seconds: number): number {
    const { network } = this;
    const supply = network.supply(drives);
    const isHeld = network.together(output).some((end) => drives(end) === 0 || drives(end) === 1);
    return isHeld ? network.volts(output, drives, supply) : network.drift(output, drives, supply, from, seconds);
  }

  private reading(volts: number, drives: (output: number) => Drive): number {
    const share = volts / this.network.supply(drives);
    return Math.min(1023, Math.max(0, Math.floor(share * 1024) + this.conditions.adcError));
  }

  private with(output: number, drive: Drive): (output: number) => Drive {
    return (one) => (one === output ? drive : (this.rest.get(one) ?? 'free'));
  }

  private get zone(): Undefined {
    return this.conditions.undefinedZone;
  }
}
