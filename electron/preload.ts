/**
 * Runs in the sandbox before the panel does. Gives it the two functions of
 * `Workbench` and nothing else: no channel, no Electron object, no other name.
 */
import { contextBridge, ipcRenderer } from 'electron';
import type { EventName, Events, Workbench } from '../shared/workbench/contract.ts';
import { problem } from '../shared/workbench/problems.ts';
import { BRIDGE, isCallName, isEventName } from '../shared/workbench/wire.ts';
import { CALL_CHANNEL, EVENT_CHANNEL } from './shell/channels.ts';

type Listener = (data: Events[EventName]) => void;

const listeners = new Map<EventName, Set<Listener>>();

ipcRenderer.on(EVENT_CHANNEL, (_, name: unknown, data: Events[EventName]) => {
  if (!isEventName(name)) return;
  for (const listener of [...(listeners.get(name) ?? [])]) listener(data);
});

const workbench: Workbench = {
  call: async (name, args) => {
    if (!isCallName(name)) return problem('badRequest', {});
    try {
      return await ipcRenderer.invoke(CALL_CHANNEL, name, args);
    } catch (error) {
      return problem('hostGone', { detail: String(error) });
    }
  },
  on: (name, listener) => {
    if (!isEventName(name) || typeof listener !== 'function') return () => {};
    const set = listeners.get(name) ?? new Set();
    listeners.set(name, set);
    set.add(listener as Listener);
    return () => {
      set.delete(listener as Listener);
    };
  },
};

contextBridge.exposeInMainWorld(BRIDGE, workbench);
