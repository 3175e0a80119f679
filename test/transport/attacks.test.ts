/** Somebody else's page, program or cable at the browser host: what they can try without the ticket, and with half of it. */
import { connect, type Socket } from 'node:net';
import { networkInterfaces } from 'node:os';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { type BrowserHost, type BrowserHostOptions, serveBrowser } from '../../electron/host/transport/browser.ts';
import type { MessagePipe } from '../../shared/workbench/wire.ts';

const FILES = new Map([['/', { type: 'text/html; charset=utf-8', body: Buffer.from('<title>Panel</title>') }]]);

let host: BrowserHost;
let panels: MessagePipe[];
let sockets: Socket[];

const serve = async (patience?: BrowserHostOptions['patience']): Promise<void> => {
  panels = [];
  const options = { files: FILES, port: 0, onPanel: (pipe: MessagePipe) => panels.push(pipe) };
  host = await serveBrowser(patience ? { ...options, patience } : options);
};
beforeEach(async () => {
  sockets = [];
  await serve();
});
afterEach(async () => {
  for (const socket of sockets) socket.destroy();
  await host.close();
});

/** What comes back for these bytes, up to the end of the connection. */
function say(text: string, then = (_: Socket): void => {}): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(host.port, '127.0.0.1', () => {
      socket.write(text);
      then(socket);
    });
    sockets.push(socket);
    let heard = '';
    socket.on('data', (data) => (heard += data.toString('latin1')));
    socket.on('error', () => {});
    socket.on('close', () => resolve(heard));
  });
}

const own = (): string => `127.0.0.1:${host.port}`;
const ticket = (): string => new URL(host.address).searchParams.get('ticket') ?? '';
const request = (path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<string> => {
  const lines = Object.entries({ Host: own(), Connection: 'close', ...headers }).map(
    ([name, value]) => `${name}: ${value}`,
  );
  return say(`${method} ${path} HTTP/1.1\r\n${lines.join('\r\n')}\r\n\r\n`);
};
const status = (answer: string): number => Number(/^HTTP\/1\.1 (\d+)/.exec(answer)?.[1] ?? 0);
async function cookie(): Promise<string> {
  return /set-cookie: ([^;]+)/i.exec(await request(`/?ticket=${ticket()}`))?.[1] ?? '';
}

function knock(headers: Record<string, string>): Promise<WebSocket | number> {
  const socket = new WebSocket(`ws://${own()}/workbench`, { headers });
  return new Promise((resolve) => {
    socket.on('error', () => {});
    socket.on('open', () => resolve(socket));
    socket.on('unexpected-response', (_, response) => resolve(response.statusCode ?? 0));
  });
}

describe('from another computer', () => {
  it('there is nobody: the host listens on the loopback alone', async () => {
    const others = Object.values(networkInterfaces())
      .flat()
      .filter((it) => it !== undefined && !it.internal && it.family === 'IPv4')
      .map((it) => it?.address ?? '');
    for (const address of [...others, '::1', '127.0.0.2']) {
      const answer = await new Promise((resolve) => {
        const socket = connect({ host: address, port: host.port });
        socket.on('connect', () => resolve('connected'));
        socket.on('error', () => resolve('refused'));
        sockets.push(socket);
      });
      expect([address, answer]).toEqual([address, 'refused']);
    }
  });
});

describe('another page in the same browser', () => {
  it('does not get in under a name of its own that leads here (DNS rebinding)', async () => {
    const jar = await cookie();
    for (const name of [
      ...[`penmarrow.example:${host.port}`, 'penmarrow.example', `localhost:${host.port}`, `[::1]:${host.port}`],
      ...[`127.0.0.1.penmarrow.example:${host.port}`, '127.0.0.1', `127.0.0.1:${host.port + 1}`, `127.1:${host.port}`],
      ...[`2130706433:${host.port}`, `127.0.0.1:${host.port}@penmarrow.example`, ''],
    ]) {
      const page = await request('/', { Host: name, Cookie: jar });
      expect([name, [400, 403].includes(status(page)), page.includes('Panel')]).toEqual([name, true, false]);
      expect(await knock({ Host: name, Origin: `http://${name}`, Cookie: jar })).not.toBeInstanceOf(WebSocket);
    }
    expect(panels).toEqual([]);
  });

  it('does not get in with two names, or with none', async () => {
    const jar = await cookie();
    const twice = await say(
      `GET / HTTP/1.1\r\nHost: penmarrow.example\r\nHost: ${own()}\r\nCookie: ${jar}\r\nConnection: close\r\n\r\n`,
    );
    const none = await say(`GET / HTTP/1.1\r\nCookie: ${jar}\r\nConnection: close\r\n\r\n`);
    const old = await say(`GET / HTTP/1.0\r\nCookie: ${jar}\r\n\r\n`);
    const whole = await say(
      `GET http://penmarrow.example/ HTTP/1.1\r\nHost: penmarrow.example\r\nCookie: ${jar}\r\nConnection: close\r\n\r\n`,
    );
    for (const answer of [twice, none, old, whole]) {
      expect([400, 403].includes(status(answer))).toBe(true);
      expect(answer).not.toContain('Panel');
    }
  });

  it('cannot open the socket, cookie or not: its origin gives it away', async () => {
    const Cookie = await cookie();
    for (const Origin of [
      ...['http://penmarrow.example', 'null', 'file://', `https://${own()}`, `http://localhost:${host.port}`],
      ...[
        `http://${own()}.penmarrow.example`,
        `http://${own()}/`,
        `HTTP://${own()}`,
        `http://127.0.0.1:${host.port + 1}`,
        '',
      ],
    ]) {
      expect([Origin, await knock({ Cookie, Origin })]).toEqual([Origin, 403]);
    }
    expect(await knock({ Cookie })).toBe(403);
    expect(panels).toEqual([]);
  });

  it('is told nothing by the answers to what it asks across origins', async () => {
    const answer = await request('/', { Origin: 'http://penmarrow.example', Cookie: await cookie() });
    expect(status(answer)).toBe(403);
    expect(answer.toLowerCase()).not.toContain('access-control-allow');
    expect(answer.toLowerCase()).toContain('cross-origin-resource-policy: same-origin');
    expect(status(await request('/', { 'Access-Control-Request-Method': 'PUT' }, 'OPTIONS'))).toBe(405);
  });

  it('cannot show the panel inside its own', async () => {
    const answer = (await request('/', { Cookie: await cookie() })).toLowerCase();
    expect(answer).toContain("frame-ancestors 'none'");
    expect(answer).toContain('x-frame-options: deny');
  });
});

describe('another program on this computer', () => {
  it('gets nothing by guessing, nor with the ticket after it was used', async () => {
    const first = ticket();
    expect(first).toMatch(/^[\w-]{32}$/);
    for (const guess of [
      '',
      'x',
      first.slice(0, -1),
      `${first}x`,
      first.toLowerCase() === first ? `${first}A` : first.toLowerCase(),
    ]) {
      expect(status(await request(`/?ticket=${guess}`))).toBe(403);
    }
    const jar = await cookie();
    expect(status(await request('/', { Cookie: jar }))).toBe(200);
    expect(await request(`/?ticket=${first}`)).toMatch(/^HTTP\/1\.1 403(?!.*set-cookie)/is);
    const [name = '', value = ''] = jar.split('=');
    for (const wrong of [
      ...[name, `${name}=`, `${name}=${first}`, `${name}=${value.slice(0, -1)}`, `${name}=${value}x`, `x${jar}`],
      ...[`amberwick-${host.port + 1}=${value}`, `${name}="${value}"`, `${name}=${value.toUpperCase()}x`],
    ]) {
      expect([wrong, status(await request('/', { Cookie: wrong }))]).toEqual([wrong, 403]);
      expect([wrong, await knock({ Cookie: wrong, Origin: `http://${own()}` })]).toEqual([wrong, 403]);
    }
  });

  it('does not get the ticket exchanged by a question that no browser asks', async () => {
    for (const method of ['HEAD', 'POST', 'PUT']) {
      expect(await request(`/?ticket=${ticket()}`, {}, method)).not.toMatch(/set-cookie/i);
    }
    expect(await cookie()).not.toBe('');
  });

  it.each([
    ...[
      '/../package.json',
      '/..%2fpackage.json',
      '/%2e%2e/package.json',
      '/....//package.json',
      '//etc/hosts',
      '/\\..\\x',
    ],
    ...['/etc/hosts', '/%00', '/?/../../x', '/#', '/;/..', '/%', '*', '/C:%5cx', '/.git/config', '/index.html/..%2f..'],
  ])('reads no file by asking for %s', async (path) => {
    const answer = await request(path, { Cookie: await cookie() });
    // The page itself, or nothing at all.
    const isPage = status(answer) === 200 && answer.includes('<title>Panel</title>');
    expect(isPage || [400, 404].includes(status(answer))).toBe(true);
  });

  it('changes nothing by any other method', async () => {
    const Cookie = await cookie();
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'PROPFIND']) {
      expect([method, status(await request('/', { Cookie }, method))]).toEqual([method, 405]);
    }
    const tunnel = await request('penmarrow.example:80', { Cookie }, 'CONNECT');
    expect(status(tunnel)).not.toBe(200);
  });
});

describe('a panel that has gone wrong, or somebody with its cookie', () => {
  const enter = async (): Promise<WebSocket> => {
    const socket = await knock({ Cookie: await cookie(), Origin: `http://${own()}` });
    if (!(socket instanceof WebSocket)) throw new Error(`refused: ${socket}`);
    return socket;
  };
  const closing = (socket: WebSocket): Promise<number> => new Promise((resolve) => socket.once('close', resolve));

  it('is let go at a message that is too long, and the host goes on', async () => {
    const socket = await enter();
    const closed = closing(socket);
    socket.send('x'.repeat(16 * 1024 * 1024 + 1));
    expect(await closed).toBe(1009);
    expect(status(await request('/', {}))).toBe(403);
  });

  it('is let go at bytes, half a frame, and a frame that no browser sends', async () => {
    const socket = await enter();
    panels[0]?.onMessage(() => {});
    const closed = closing(socket);
    socket.send(Buffer.from([1, 2, 3]));
    expect(await closed).toBe(1003);
    const raw = await say(
      `GET /workbench HTTP/1.1\r\nHost: ${own()}\r\nOrigin: http://${own()}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n` +
        'Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n',
    );
    expect(status(raw)).toBe(403);
  });
});

describe('somebody who never finishes a sentence', () => {
  const SHORT = { headers: 300, request: 600, check: 50, most: 8 };
  beforeEach(async () => {
    await host.close();
    await serve(SHORT);
  });

  it('is cut off: neither half a header nor a header a letter at a time is waited for', async () => {
    const began = performance.now();
    const half = say('GET / HTTP/1.1\r\nHost: ');
    const slow = say('GET / HTTP/1.1\r\n', (socket) => {
      const timer = setInterval(() => socket.write('X-a: b\r\n'), 40);
      socket.on('close', () => clearInterval(timer));
    });
    await Promise.all([half, slow]);
    expect(performance.now() - began).toBeLessThan(10_000);
  });

  it('does not keep others out by many connections: only so many wait at a time, and they end', async () => {
    const many = Array.from({ length: 30 }, () => say('GET / HTTP/1.1\r\n'));
    await Promise.all(many);
    expect(status(await request(`/?ticket=${ticket()}`))).toBe(303);
  });

  it('a panel that is open stays, however long it is silent', async () => {
    const socket = await knock({ Cookie: await cookie(), Origin: `http://${own()}` });
    if (!(socket instanceof WebSocket)) throw new Error('refused');
    await new Promise((resolve) => setTimeout(resolve, 4 * SHORT.request));
    expect(socket.readyState).toBe(WebSocket.OPEN);
    socket.close();
  });
});
