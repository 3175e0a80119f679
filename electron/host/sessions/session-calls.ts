import type { SESSION_CALLS } from '../../../shared/workbench/calls/sessions.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';

type Calls = Pick<Handlers, keyof typeof SESSION_CALLS>;

export function sessionCalls(): Calls {
  return {
    listSessions: () => problem('badRequest', {}),
    readSession: () => problem('badRequest', {}),
    attachPhoto: () => problem('badRequest', {}),
  };
}
