/** All sites of several boards from one moment: the word goes out to all before any has answered. */
import { ask } from '../../../shared/link/requests.ts';
import type { CallResults, Outcome, Problem } from '../../../shared/workbench/contract.ts';
import { describeProblem } from '../../../shared/workbench/problems.ts';
import type { Clock } from '../clock.ts';
import { fine } from '../result.ts';
import { failureOf } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';

type Answer =
  | { readonly unit: BoardUnit; readonly at: number; readonly problem: null }
  | { readonly unit: BoardUnit; readonly problem: Problem };

/**
 * Boards that do not run the layout are left alone. Each starts between the sending of its word and its answer, so
 * `within` is an upper bound and needs no trust in the line.
 */
export async function startTogether(
  units: readonly BoardUnit[],
  clock: Clock,
): Promise<Outcome<CallResults['startTogether']>> {
  const ready = units.filter(({ session, isOpenLayout }) => session && isOpenLayout);
  const first = units[0];
  if (ready.length === 0) {
    return { ok: false, problem: first?.absence ?? describeProblem('noSuchBoard', {}) };
  }
  const sent = clock.now();
  const answers = await Promise.all(ready.map((unit) => startOne(unit, clock)));
  const started = answers.flatMap((answer) => (answer.problem === null ? [answer] : []));
  const within = started.length > 1 ? Math.ceil(Math.max(...started.map(({ at }) => at)) - sent) : null;
  const names = started.map(({ unit }) => unit.plan.name).join(' and ');
  for (const { unit } of started) {
    const apart = within === null ? '' : `, within ${within} ms of each other`;
    if (unit === started[0]?.unit)
      unit.log('control', `Started all of ${names} from the beginning${apart}.`, { within });
    await unit.snapshot();
  }
  const failed = answers.find(({ problem }) => problem !== null);
  if (failed?.problem && started.length === 0) return { ok: false, problem: failed.problem };
  for (const { unit, problem } of answers) {
    if (problem) unit.log('problem', `${unit.plan.name} was not started with the others: ${problem.what}`);
  }
  return fine({ boards: started.map(({ unit }) => unit.plan.id), within });
}

async function startOne(unit: BoardUnit, clock: Clock): Promise<Answer> {
  const { session } = unit;
  if (!session) return { unit, problem: unit.absence };
  const answer = await session.request(ask.again());
  return answer.ok ? { unit, at: clock.now(), problem: null } : { unit, problem: failureOf(unit, answer.error) };
}
