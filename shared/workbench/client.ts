/** The panel's end of a pipe: a `Workbench` whose calls go to the host. */
import type { CallName, CallResults, EventName, Events, Outcome, Workbench } from './contract.ts';
import { problem } from './problems.ts';
import { type CallMessage, isCallName, isEventName, isRecord, type MessagePipe } from './wire.ts';

type AnyOutcome = Outcome<CallResults[CallName]>;
type Listener = (data: Events[EventName]) => void;

/**
 * Calls never reject. When the pipe closes, all waiting calls and all later
 * ones give the problem `hostGone`; a new pipe needs a new client.
 */
export function createClient(pipe: MessagePipe): Workbench {
  const waiting = new Map<number, (outcome: AnyOutcome) => void>();
  const listeners = new Map<EventName, Set<Listener>>();
  let lastId = 0;
  let closed = false;

  pipe.onMessage((message) => {
    if (!isRecord(message)) return;
    if (message.type === 'result' && typeof message.id === 'number') {
      const resolve = waiting.get(message.id);
      waiting.delete(message.id);
      resolve?.(message.outcome as AnyOutcome);
    } else if (message.type === 'event' && isEventName(message.name)) {
      for (const listener of [...(listeners.get(message.name) ?? [])]) listener(message.data as Events[EventName]);
    }
  });
  pipe.onClose(() => {
    closed = true;
    for (const resolve of waiting.values()) resolve(problem('hostGone', {}));
    waiting.clear();
  });

  return {
    call: (name, args) => {
      type Result = Outcome<CallResults[typeof name]>;
      if (!isCallName(name)) return Promise.resolve(problem('badRequest', { detail: `no call "${String(name)}"` }));
      if (closed) return Promise.resolve(problem('hostGone', {}));
      lastId += 1;
      const id = lastId;
      return new Promise<Result>((resolve) => {
        waiting.set(id, resolve as (outcome: AnyOutcome) => void);
        pipe.send({ type: 'call', id, name, args } as unknown as CallMessage);
      });
    },
    on: (name, listener) => {
      if (!isEventName(name)) return () => {};
      const set = listeners.get(name) ?? new Set();
      listeners.set(name, set);
      set.add(listener as Listener);
      return () => {
        set.delete(listener as Listener);
      };
    },
  };
}
