/** Several dials in one step: switching between two sets of times, walking back, back to the plan. */
import { ask } from '../../../shared/link/requests.ts';
import { type LoggedChange, writeChanges } from '../../../shared/workbench/changes.ts';
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { fine } from '../result.ts';
import { failureOf, lossOf, openLayoutOn } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';
import type { BoardPlan } from './document.ts';
import { dialIn } from './images.ts';
import { changeList, type DialChange, dialName } from './sentences.ts';

export class Tuning {
  private readonly unit: BoardUnit;

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  async tune({ changes, what, who }: Omit<CallArgs<'tune'>, 'board'>): Promise<Outcome<CallResults['tune']>> {
    const { unit } = this;
    const there = openLayoutOn(unit);
    if (!there.ok) return there;
    const { session } = there.value;
    const done: DialChange[] = [];
    let refusal: Outcome<never> | null = null;
    // All go out at once: the session sends each as soon as the one before is answered.
    await Promise.all(
      changes.map(async ({ site, dial, ms }) => {
        const from = dialIn(there.value.running, site, dial);
        const turned = await session.request(ask.dial(site, dial, ms));
        if (turned.ok) {
          unit.known.dialTurned(site, dial, turned.value);
          done.push({ site, dial, from: from ?? turned.value, to: turned.value });
          return;
        }
        const found = failureOf(unit, turned.error);
        refusal ??= { ok: false, problem: found };
        if (!lossOf(unit, turned.error))
          unit.log('problem', `${dialName(unit.plan, site, dial)} stayed: ${found.what}`, { site, dial, to: ms });
      }),
    );
    if (done.length > 0) {
      const text = `${what} on ${unit.plan.name}: ${changeList(unit.plan, done)}.`;
      unit.log('nudge', text, { who, changes: writeChanges(logged(unit.plan, done)) });
    }
    const snap = await session.request(ask.snap());
    if (snap.ok && session === unit.session) unit.known.takeFlags(snap.value);
    unit.tellState();
    if (refusal !== null && done.length === 0) return refusal;
    return fine({ changes: done.map(({ site, dial, to }) => ({ site, dial, ms: to })) });
  }
}

/** By the ids of the open layout; a dial that it does not name is left out. */
export function logged(plan: BoardPlan, changes: readonly DialChange[]): LoggedChange[] {
  return changes.flatMap(({ site, dial, from, to }) => {
    const named = plan.compiled?.sites[site];
    const id = named?.dials[dial]?.id;
    return named && id !== undefined ? [{ site: named.id, dial: id, from, to }] : [];
  });
}
