import type { SHELL_CALLS } from '../../../shared/workbench/calls/shell.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';

type Calls = Pick<Handlers, keyof typeof SHELL_CALLS>;

export function shellCalls(): Calls {
  return {
    setMenus: () => ({ ok: true, value: null }),
    about: () => problem('badRequest', {}),
  };
}
