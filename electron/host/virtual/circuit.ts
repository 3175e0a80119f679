/**
 * The lamp network behind a running virtual board: what each of its outputs does now, and what its pins read. It is
 * solved only when somebody looks: a pin that is an input, the analogue converter, or whoever wants to see the lamps.
 */
import { glowOfAll } from '../../../shared/electrics/circuit/glow.ts';
import { levelAt, type Undefined } from '../../../shared/electrics/circuit/levels.ts';
import { Network } from '../../../shared/electrics/circuit/network.ts';
import type { Drive } from '../../../shared/electrics/circuit/node.ts';
import type { Parts } from '../../../shared/electrics/circuit/parts.ts';
import type { Glow, Load, WiringFault } from '../../../shared/electrics/model.ts';
import { CPU_HZ } from './chips.ts';

/** Everything that makes a circuit; plain data, so that it can go to a worker thread. */
export interface CircuitPlan {
  readonly loads: readonly Load[];
  readonly faults: readonly WiringFault[];
  readonly parts?: Partial<Parts>;
  /** What a digital input reads where its data sheet promises nothing; a number seeds chance. Default: chance. */
  readonly undefinedZone?: 'low' | 'high' | number;
  /** Added to each reading of the converter, of 1,024. Default: 0. */
  readonly adcError?: number;
}

interface OutputNow {
  drive: Drive;
  /** For one that is not driven: where its voltage was, and when. */
  volts: number;
  at: number;
}

const isDriven = (drive: Drive | undefined): boolean => drive === 0 || drive === 1;

export class Circuit {
  readonly network: Network;
  readonly adcError: number;
  /** Cycle at which an output last changed. */
  changedAt = 0;
  /** Counts changes of outputs. */
  version = 0;
  private readonly outputs: (OutputNow | undefined)[] = [];
  private readonly undefinedZone: Undefined;
  private supplyKnown: { readonly version: number; readonly volts: number } | null = null;

  constructor(plan: CircuitPlan) {
    this.network = new Network(plan.loads, plan.faults, plan.parts);
    this.adcError = plan.adcError ?? 0;
    const zone = plan.undefinedZone ?? 1;
    this.undefinedZone = typeof zone === 'number' ? chance(zone) : zone;
    for (const output of this.network.outputs) this.outputs[output] = { drive: 'free', volts: 0, at: 0 };
  }

  has(output: number): boolean {
    return this.outputs[output] !== undefined;
  }

  /** An output does something else from now on. */
  drive(output: number, drive: Drive, cycles: number): void {
    const now = this.outputs[output];
    if (now === undefined || now.drive === drive) return;
    // What was driven lets go at the voltage it had; all that touches it drifts on from where it is.
    if (!isDriven(drive)) this.holdAll(output, cycles);
    now.drive = drive;
    this.changedAt = cycles;
    this.version += 1;
  }

  /** Volts at an output now. */
  volts(output: number, cycles: number): number {
    const now = this.outputs[output];
    if (now === undefined) return 0;
    const { network } = this;
    const supply = this.supply();
    if (network.together(output).some((end) => isDriven(this.outputs[end]?.drive))) {
      return network.volts(output, this.drives, supply);
    }
    return network.drift(output, this.drives, supply, now.volts, (cycles - now.at) / CPU_HZ);
  }

  level(output: number, cycles: number): 0 | 1 {
    return levelAt(this.volts(output, cycles), this.supply(), this.undefinedZone);
  }

  /** Volts of the board's supply now. */
  supply(): number {
    if (this.supplyKnown?.version !== this.version) {
      this.supplyKnown = { version: this.version, volts: this.network.supply(this.drives) };
    }
    return this.supplyKnown?.volts ?? this.network.parts.supplyVolts;
  }

  /** By load and head. */
  glow(): Glow[][] {
    return glowOfAll(this.network, this.drives);
  }

  private readonly drives = (output: number): Drive => this.outputs[output]?.drive ?? 'free';

  private holdAll(output: number, cycles: number): void {
    const ends = this.network.together(output);
    const volts = ends.map((end) => this.volts(end, cycles));
    ends.forEach((end, index) => {
      const now = this.outputs[end];
      if (now) {
        now.volts = volts[index] ?? 0;
        now.at = cycles;
      }
    });
  }
}

/** Zeros and ones from a fixed generator (xorshift), the same at each run. */
function chance(seed: number): () => 0 | 1 {
  let state = (seed | 0) === 0 ? 1 : seed | 0;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 9) & 1) as 0 | 1;
  };
}
