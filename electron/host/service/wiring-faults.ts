/** Faults in the wiring of a virtual board, to practise on. */
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { BoardUnit } from './board-unit.ts';

export class WiringFaults {
  private readonly unit: BoardUnit;

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  async setFaults(_args: Omit<CallArgs<'setFaults'>, 'board'>): Promise<Outcome<CallResults['setFaults']>> {
    return problem('noFaultsHere', this.unit.link.where);
  }
}
