/** The lamp check on a board: one lamp lit at a time while the sites are held back. */
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { BoardUnit } from './board-unit.ts';

type Args<N extends 'beginCheck' | 'light' | 'noteCheck'> = Omit<CallArgs<N>, 'board'>;

export class LampCheck {
  private readonly unit: BoardUnit;

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  async begin(_args: Args<'beginCheck'>): Promise<Outcome<null>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }

  async light(_args: Args<'light'>): Promise<Outcome<null>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }

  async end(): Promise<Outcome<null>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }

  async note(_args: Args<'noteCheck'>): Promise<Outcome<CallResults['noteCheck']>> {
    return problem('refused', { ...this.unit.link.where, refusal: 1 });
  }
}
