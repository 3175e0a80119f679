/** What the chip can measure by itself: pins, and its own supply. */
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { BoardUnit } from './board-unit.ts';

type Args<N extends 'pulse' | 'probe' | 'supply'> = Omit<CallArgs<N>, 'board'>;

export class Measures {
  private readonly unit: BoardUnit;

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  async pulse(_args: Args<'pulse'>): Promise<Outcome<null>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }

  async probe(_args: Args<'probe'>): Promise<Outcome<CallResults['probe']>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }

  async supply(_args: Args<'supply'>): Promise<Outcome<CallResults['supply']>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }
}
