/** Asks on over a line so bad that all copies of one request were lost, as long as the heartbeat says that the board is there. */
import type { Request } from '../../shared/link/requests.ts';
import type { HostError, Outcome } from './result.ts';
import type { BoardSession } from './session.ts';

/** So often in all, each time with several copies. Where the board is gone, the heartbeat ends the session before. */
const ROUNDS = 4;

/** For requests that may be done twice without harm: each round is a new request to the board. */
export async function persist<T>(session: BoardSession, request: Request<T>): Promise<Outcome<T, HostError>> {
  for (let round = 1; ; round++) {
    const outcome = await session.request(request);
    if (outcome.ok || outcome.error.kind !== 'silent' || round === ROUNDS) return outcome;
  }
}
