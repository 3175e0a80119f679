/** A WebSocket as a message pipe: one JSON text a message. */
import type { WebSocket } from 'ws';
import type { MessagePipe } from '../../../shared/workbench/wire.ts';

/** A panel that no longer reads (a tab put to sleep) is let go at this many bytes; it connects anew when it wakes. */
const MOST_WAITING = 8 * 1024 * 1024;

export function socketPipe(socket: WebSocket): MessagePipe {
  socket.on('error', () => socket.terminate());
  return {
    send: (message) => {
      if (socket.readyState !== socket.OPEN) return;
      if (socket.bufferedAmount > MOST_WAITING) socket.terminate();
      else socket.send(JSON.stringify(message));
    },
    onMessage: (listener) => {
      socket.on('message', (data, binary) => {
        const message = binary ? undefined : parsed(String(data));
        if (message === undefined) socket.close(1003, 'not understood');
        else listener(message);
      });
    },
    onClose: (listener) => {
      socket.once('close', () => listener());
    },
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
