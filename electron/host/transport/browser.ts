/**
 * Serves the panel to a browser on the same machine: files over HTTP, messages
 * over one WebSocket. Loopback only; each request has to prove that it comes
 * from our own page.
 */
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import type { MessagePipe } from '../../../shared/workbench/wire.ts';
import type { PanelFiles } from './panel-files.ts';
import { panelHeaders } from './policy.ts';
import { socketPipe } from './socket-pipe.ts';
import { Door } from './token.ts';

const LOOPBACK = '127.0.0.1';
export const SOCKET_PATH = '/workbench';
/** The longest message is a layout file in full, bytes. */
const LONGEST_MESSAGE = 16 * 1024 * 1024;
/** Our page asks at once and for little; whoever takes longer only means to occupy the host. */
const PATIENCE: Patience = { headers: 10_000, request: 15_000, check: 2_000, most: 64 };

export interface BrowserHost {
  readonly port: number;
  /** Opens the panel once; afterwards the cookie does. */
  readonly address: string;
  close(): Promise<void>;
}

export interface BrowserHostOptions {
  readonly files: PanelFiles;
  /** 0 lets the system choose. */
  readonly port: number;
  /** A panel has connected. */
  readonly onPanel: (pipe: MessagePipe) => void;
  /** Default: what is right for a browser on the same computer. */
  readonly patience?: Patience;
}

export interface Patience {
  /** Longest time until the header of a request is whole, and until all of it is; how often that is looked at, ms. */
  readonly headers: number;
  readonly request: number;
  readonly check: number;
  /** Connections at a time, panels among them. */
  readonly most: number;
}

/** Rejects when the port cannot be listened at. */
export async function serveBrowser(options: BrowserHostOptions): Promise<BrowserHost> {
  const { headers: headersTimeout, request: requestTimeout, check, most } = options.patience ?? PATIENCE;
  const server = createServer({ headersTimeout, requestTimeout, connectionsCheckingInterval: check });
  server.maxConnections = most;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(options.port, LOOPBACK, resolve);
  });
  const { port } = server.address() as AddressInfo;
  const host = `${LOOPBACK}:${port}`;
  const door = new Door(port);
  const headers = panelHeaders(`'self' ws://${host}`);
  const sockets = new WebSocketServer({ noServer: true, maxPayload: LONGEST_MESSAGE });

  server.on('request', (request, response) => {
    const answer = refusal(request, host) ?? page(request, door, options.files);
    response.writeHead(answer.status, { ...headers, 'Content-Type': answer.type, ...answer.headers });
    response.end(request.method === 'HEAD' ? undefined : answer.body);
  });
  server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    // A connection without an Origin is no browser page, so it is refused too.
    const ours = request.headers.host === host && request.headers.origin === `http://${host}`;
    if (!ours || request.url !== SOCKET_PATH || !door.knows(request.headers.cookie)) {
      socket.on('error', () => {});
      socket.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\n\r\n');
      return;
    }
    sockets.handleUpgrade(request, socket, head, (webSocket) => options.onPanel(socketPipe(webSocket)));
  });

  return {
    port,
    address: `http://${host}/?ticket=${door.ticket}`,
    close: async () => {
      for (const socket of sockets.clients) socket.terminate();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

interface Answer {
  readonly status: number;
  readonly type: string;
  readonly body: string | Buffer;
  readonly headers?: Record<string, string>;
}

function sentence(status: number, body: string, headers?: Record<string, string>): Answer {
  return { status, type: 'text/plain; charset=utf-8', body: `${body}\n`, ...(headers ? { headers } : {}) };
}

/** A foreign name for this machine is how a foreign page would get past the browser's own rules. */
function refusal(request: IncomingMessage, host: string): Answer | null {
  if (request.headers.host !== host) return sentence(403, 'This address is not the one that Amberwick gave.');
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${host}`) return sentence(403, 'Other pages may not ask here.');
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    return sentence(405, 'Only reading is possible here.', { Allow: 'GET, HEAD' });
  }
  return null;
}

function page(request: IncomingMessage, door: Door, files: PanelFiles): Answer {
  // Joined as text: as a base, `//name` would be read as another host.
  const target = `http://panel${request.url ?? '/'}`;
  if (!URL.canParse(target)) return sentence(400, 'This address cannot be read.');
  const url = new URL(target);
  const ticket = url.pathname === '/' ? url.searchParams.get('ticket') : null;
  const known = door.knows(request.headers.cookie);
  if (ticket !== null && request.method === 'GET') {
    const cookie = door.exchange(ticket);
    if (cookie !== null) return sentence(303, 'Welcome.', { Location: '/', 'Set-Cookie': cookie });
    if (known) return sentence(303, 'Welcome back.', { Location: '/' });
  }
  if (!known) {
    return sentence(403, 'This address has been used or is not whole. Start Amberwick again for a new one.');
  }
  const file = files.get(url.pathname);
  return file ? { status: 200, type: file.type, body: file.body } : sentence(404, 'There is nothing here.');
}
