/**
 * The messages that a transport carries between panel and host. They are
 * derived from the contract's two maps, so a new call or event needs no line here.
 */
import {
  CALLS,
  type CallArgs,
  type CallName,
  type CallResults,
  EVENT_NAMES,
  type EventName,
  type Events,
  type Outcome,
} from './contract.ts';

/** Panel to host. `id` is repeated in the result. */
export type CallMessage = {
  [N in CallName]: { readonly type: 'call'; readonly id: number; readonly name: N; readonly args: CallArgs<N> };
}[CallName];

/** Host to panel. */
export type ResultMessage = {
  readonly type: 'result';
  readonly id: number;
  readonly outcome: Outcome<CallResults[CallName]>;
};

/** Host to panel, unasked. */
export type EventMessage = {
  [N in EventName]: { readonly type: 'event'; readonly name: N; readonly data: Events[N] };
}[EventName];

/** One connection between a panel and the host. Messages are plain data and arrive whole and in order. */
export interface MessagePipe {
  send(message: CallMessage | ResultMessage | EventMessage): void;
  /** What arrives is not to be trusted. */
  onMessage(listener: (message: unknown) => void): void;
  /** Called once; afterwards nothing is sent or heard. */
  onClose(listener: () => void): void;
}

/** Name under which the preload bridge stands in the window, and of its one IPC channel. */
export const BRIDGE = 'amberwick';

export const CALL_NAMES = Object.keys(CALLS) as readonly CallName[];

export function isCallName(value: unknown): value is CallName {
  return typeof value === 'string' && Object.hasOwn(CALLS, value);
}

export function isEventName(value: unknown): value is EventName {
  return EVENT_NAMES.some((name) => name === value);
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
