/** The way to the host: the bridge of the desktop shell, or a WebSocket to where this page came from. */
import { createClient } from '../shared/workbench/client.ts';
import type { Workbench } from '../shared/workbench/contract.ts';
import { BRIDGE, type MessagePipe } from '../shared/workbench/wire.ts';

/** Between two tries to reach a host that is away, ms. */
const RETRY = 1_000;

/**
 * Hands over a workbench as soon as there is one, and another after each time
 * the host was away. `gone` tells that it is away now.
 */
export function reachHost(found: (workbench: Workbench) => void, gone: () => void): void {
  const bridge = (window as unknown as Record<string, Workbench | undefined>)[BRIDGE];
  if (bridge) {
    found(bridge);
    return;
  }
  const scheme = location.protocol === 'https:' ? 'wss' : 'ws';
  const open = (): void => {
    const socket = new WebSocket(`${scheme}://${location.host}/workbench`);
    socket.addEventListener('open', () => found(createClient(pipeOf(socket))));
    socket.addEventListener('close', () => {
      gone();
      setTimeout(open, RETRY);
    });
  };
  open();
}

function pipeOf(socket: WebSocket): MessagePipe {
  return {
    send: (message) => {
      if (socket.readyState === WebSocket.OPEN) socket.send(JSON.stringify(message));
    },
    onMessage: (listener) =>
      socket.addEventListener('message', ({ data }) => {
        try {
          listener(JSON.parse(String(data)));
        } catch {
          // Not from our host; nothing to answer.
        }
      }),
    onClose: (listener) => socket.addEventListener('close', () => listener(), { once: true }),
  };
}
