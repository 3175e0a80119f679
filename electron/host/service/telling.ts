/** What the host tells, handed to everyone who listens. */
import type { EventName, Events } from '../../../shared/workbench/contract.ts';
import type { Telling } from '../../../shared/workbench/serve.ts';

export type Tell = <N extends EventName>(name: N, data: Events[N]) => void;

export function createTelling(): { readonly tell: Tell; readonly telling: Telling } {
  const listeners = new Set<Tell>();
  return {
    tell: (name, data) => {
      for (const listener of [...listeners]) listener(name, data);
    },
    telling: (listener) => {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
  };
}
