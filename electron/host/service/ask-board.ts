/** One short request to the board of a unit, with what went wrong as a problem. */
import type { Request } from '../../../shared/link/requests.ts';
import type { Outcome, Problem } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import { fine, type HostError } from '../result.ts';
import type { BoardSession } from '../session.ts';
import type { BoardUnit } from './board-unit.ts';
import { requestProblem } from './failures.ts';

export async function askBoard<T>(unit: BoardUnit, request: Request<T>): Promise<Outcome<T>> {
  const { session } = unit;
  if (!session) return { ok: false, problem: unit.absence };
  const answer = await session.request(request);
  return answer.ok ? answer : { ok: false, problem: failureOf(unit, answer.error) };
}

/** A request that speaks of a site, lamp, dial or input by its number in the open layout, so the board has to run that. */
export async function askOfLayout<T>(unit: BoardUnit, request: Request<T>): Promise<Outcome<T>> {
  const found = openLayoutOn(unit);
  return found.ok ? askBoard(unit, request) : found;
}

interface Running {
  readonly session: BoardSession;
  /** The image of the open layout as the board runs it. */
  readonly running: Uint8Array;
}

/** The board runs the open layout; else why nothing can be asked of it. */
export function openLayoutOn(unit: BoardUnit): Outcome<Running> {
  const { session, known, link } = unit;
  if (!session) return { ok: false, problem: unit.absence };
  if (!known.running) return problem('refused', { ...link.where, refusal: 5 });
  if (!unit.isOpenLayout) return problem('otherTable', link.where);
  return fine({ session, running: known.running });
}

export function failureOf(unit: BoardUnit, error: HostError): Problem {
  return lossOf(unit, error) ?? requestProblem(error, unit.link.where);
}

/** The board went away meanwhile, which has been told where it was noticed; null for anything else. */
export function lossOf(unit: BoardUnit, error: HostError): Problem | null {
  return error.kind === 'ended' ? unit.link.problem : null;
}
