/** The host's end of a pipe: narrows what arrives, lets a handler work, answers with an outcome. */
import { z } from 'zod';
import {
  CALLS,
  type CallArgs,
  type CallName,
  type CallResults,
  type EventName,
  type Events,
  type Outcome,
} from './contract.ts';
import { problem } from './problems.ts';
import { type EventMessage, isCallName, isRecord, type MessagePipe, type ResultMessage } from './wire.ts';

export type Handlers = {
  readonly [N in CallName]: (args: CallArgs<N>) => Outcome<CallResults[N]> | Promise<Outcome<CallResults[N]>>;
};

/** Subscribes to everything the host tells; gives back a function that ends it. */
export type Telling = (listener: <N extends EventName>(name: N, data: Events[N]) => void) => () => void;

type AnyOutcome = Outcome<CallResults[CallName]>;

/** Answers one call. `name` and `args` may be anything; a handler only ever sees arguments of its own shape. */
export async function answerCall(handlers: Handlers, name: unknown, args: unknown): Promise<AnyOutcome> {
  if (!isCallName(name)) return problem('badRequest', { detail: `no call "${String(name)}"` });
  const narrowed = CALLS[name].safeParse(args);
  if (!narrowed.success) return problem('badRequest', { detail: `${name}: ${z.prettifyError(narrowed.error)}` });
  try {
    const handler = handlers[name] as (args: unknown) => AnyOutcome | Promise<AnyOutcome>;
    return await handler(narrowed.data);
  } catch (error) {
    return problem('hostFailed', { detail: `${name}: ${error instanceof Error ? error.message : String(error)}` });
  }
}

/** Serves one panel until its pipe closes. */
export function servePipe(pipe: MessagePipe, handlers: Handlers, telling: Telling): void {
  let open = true;
  const quiet = telling((name, data) => {
    if (open) pipe.send({ type: 'event', name, data } as unknown as EventMessage);
  });
  pipe.onClose(() => {
    open = false;
    quiet();
  });
  pipe.onMessage((message) => {
    // Without a number there is nobody to answer.
    if (!isRecord(message) || message.type !== 'call' || typeof message.id !== 'number') return;
    const { id } = message;
    void answerCall(handlers, message.name, message.args).then((outcome) => {
      const result: ResultMessage = { type: 'result', id, outcome };
      if (open) pipe.send(result);
    });
  });
}
