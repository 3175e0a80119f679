/** `amberwick keep`: what runs now is what the board starts with. */
import { requestProblem } from '../../electron/host/service/failures.ts';
import { ask } from '../../shared/link/requests.ts';
import { type PortOptions, withBoard } from './connect.ts';
import type { Report } from './output.ts';

export function keep(options: PortOptions): Promise<Report> {
  return withBoard(options, null, async ({ session }): Promise<Report> => {
    const kept = await session.request(ask.keep());
    if (!kept.ok) return { exit: 1, problem: requestProblem(kept.error, { port: options.port }) };
    const times = kept.value === null ? '' : ` (${kept.value} keeps so far)`;
    return { exit: 0, data: { keeps: kept.value }, text: [`Kept: the board starts with what runs now${times}.`] };
  });
}
