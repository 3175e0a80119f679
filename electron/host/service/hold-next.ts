/** Holding what comes next: armed here, held when the board enters one of the rows, forgotten with the connection. */
import { ask } from '../../../shared/link/requests.ts';
import type { BoardState, CallArgs, Outcome } from '../../../shared/workbench/contract.ts';
import { fine } from '../result.ts';
import { askOfLayout, openLayoutOn } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';
import { rowName, siteName } from './sentences.ts';

export class HoldNext {
  private readonly unit: BoardUnit;
  private readonly armed = new Map<number, readonly number[]>();

  constructor(unit: BoardUnit) {
    this.unit = unit;
    unit.onRow = (site, row) => void this.entered(site, row);
    unit.arms = () => this.state();
    unit.disarm = () => this.armed.clear();
  }

  async arm({ site, rows }: Omit<CallArgs<'holdAt'>, 'board'>): Promise<Outcome<null>> {
    const { unit } = this;
    const { plan } = unit;
    if (rows.length === 0) {
      if (this.armed.delete(site)) unit.log('control', `${siteName(plan, site)} no longer waits to be held.`, { site });
      unit.tellState();
      return fine(null);
    }
    const there = openLayoutOn(unit);
    if (!there.ok) return there;
    this.armed.set(site, rows);
    const where = rows.map((row) => `"${rowName(plan, site, row)}"`).join(' or ');
    unit.log('control', `Will hold ${siteName(plan, site)} at its next ${where}.`, { site });
    unit.tellState();
    return fine(null);
  }

  private state(): BoardState['arms'] {
    return [...this.armed].map(([site, rows]) => ({ site, rows }));
  }

  private async entered(site: number, row: number): Promise<void> {
    const { unit } = this;
    if (!this.armed.get(site)?.includes(row)) return;
    this.armed.delete(site);
    const where = `${siteName(unit.plan, site)} at "${rowName(unit.plan, site, row)}"`;
    const held = await askOfLayout(unit, ask.hold(site, true));
    if (held.ok) unit.log('control', `Held ${where}, as asked.`, { site, on: true });
    else unit.log('problem', `${where} was not held: ${held.problem.what}`, { site, code: held.problem.code });
    await unit.snapshot();
  }
}
