import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { type BrowserHost, serveBrowser } from '../../electron/host/transport/browser.ts';
import { type PanelFiles, readPanel } from '../../electron/host/transport/panel-files.ts';
import type { MessagePipe } from '../../shared/workbench/wire.ts';

let folder: string;
let host: BrowserHost;
let panels: MessagePipe[];

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'panel-'));
  mkdirSync(join(folder, 'panel', 'assets'), { recursive: true });
  writeFileSync(join(folder, 'panel', 'index.html'), '<!doctype html><title>Panel</title>');
  writeFileSync(join(folder, 'panel', 'assets', 'panel.js'), 'export {};');
  writeFileSync(join(folder, 'panel', 'assets', 'panel.js.map'), '{}');
  writeFileSync(join(folder, 'secret.html'), 'not for the page');
  panels = [];
  host = await serveBrowser({ files: filesOf(join(folder, 'panel')), port: 0, onPanel: (pipe) => panels.push(pipe) });
});

afterEach(async () => {
  await host.close();
  rmSync(folder, { recursive: true });
});

function filesOf(path: string): PanelFiles {
  const result = readPanel(path);
  if (!result.ok) throw new Error(result.error);
  return result.files;
}

interface Reply {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: string;
}

/** Below fetch, which would tidy the path and would not let a test choose the Host. */
function ask(path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const outgoing = request({ host: '127.0.0.1', port: host.port, path, method, headers }, (response) => {
      let body = '';
      response.on('data', (chunk) => {
        body += chunk;
      });
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    outgoing.on('error', reject);
    outgoing.end();
  });
}

const ticketPath = (): string => host.address.slice(host.address.indexOf('/?'));

async function cookie(): Promise<string> {
  const reply = await ask(ticketPath());
  return String(reply.headers['set-cookie']).split(';')[0] ?? '';
}

/** What became of an attempt to connect: `open`, or the HTTP status of the refusal. */
function knock(headers: Record<string, string>, path = '/workbench'): Promise<{ outcome: string; socket: WebSocket }> {
  const socket = new WebSocket(`ws://127.0.0.1:${host.port}${path}`, { headers });
  return new Promise((resolve) => {
    socket.on('error', () => {});
    socket.on('open', () => resolve({ outcome: 'open', socket }));
    socket.on('unexpected-response', (_, response) => resolve({ outcome: String(response.statusCode), socket }));
  });
}

describe('a panel in the browser', () => {
  it('exchanges the ticket in its address for a cookie and loads again without it', async () => {
    const first = await ask(ticketPath());
    expect(first.status).toBe(303);
    expect(first.headers.location).toBe('/');
    expect(String(first.headers['set-cookie'])).toMatch(
      /^amberwick-\d+=[\w-]{32}; HttpOnly; SameSite=Strict; Path=\/$/,
    );
    const jar = { Cookie: String(first.headers['set-cookie']).split(';')[0] ?? '' };
    for (const _ of ['first look', 'loaded again']) {
      const page = await ask('/', jar);
      expect([page.status, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
      expect(page.body).toContain('<title>Panel</title>');
    }
    expect((await ask('/assets/panel.js', jar)).body).toBe('export {};');
    expect((await ask(ticketPath(), jar)).status).toBe(303);
  });

  it('lets nobody use the same ticket a second time, nor another one', async () => {
    await ask(ticketPath());
    const second = await ask(ticketPath());
    expect(second.status).toBe(403);
    expect(second.headers['set-cookie']).toBeUndefined();
    expect(second.body).toBe('This address has been used or is not whole. Start Amberwick again for a new one.\n');
    expect((await ask('/?ticket=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA')).status).toBe(403);
    expect((await ask('/')).status).toBe(403);
    expect((await ask('/assets/panel.js')).status).toBe(403);
    expect((await ask('/', { Cookie: `amberwick-${host.port}=guess` })).status).toBe(403);
  });

  it('sends a strict content policy with every answer', async () => {
    for (const reply of [await ask('/'), await ask('/', { Cookie: await cookie() })]) {
      const policy = String(reply.headers['content-security-policy']);
      expect(policy).toBe(
        "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; " +
          `connect-src 'self' ws://127.0.0.1:${host.port}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
      );
      expect(policy).not.toContain('unsafe');
      expect(reply.headers['x-content-type-options']).toBe('nosniff');
      expect(reply.headers['referrer-policy']).toBe('no-referrer');
      expect(reply.headers['cache-control']).toBe('no-store');
    }
  });

  it('refuses a foreign Host and a foreign Origin, ticket or not', async () => {
    const jar = { Cookie: await cookie() };
    expect((await ask('/', { ...jar, Host: `penmarrow.example:${host.port}` })).status).toBe(403);
    expect((await ask('/', { ...jar, Host: `localhost:${host.port}` })).status).toBe(403);
    expect((await ask('/', { ...jar, Origin: 'http://penmarrow.example' })).status).toBe(403);
    expect((await ask('/', { ...jar, Origin: `http://127.0.0.1:${host.port}` })).status).toBe(200);
  });

  it('serves the files of the panel and no others, to readers only', async () => {
    const jar = { Cookie: await cookie() };
    for (const path of [
      '/../secret.html',
      '/assets/../../secret.html',
      '/%2e%2e/secret.html',
      '/assets/..%2f..%2fsecret.html',
      '//secret.html',
      '/..\\secret.html',
      '/assets',
      '/assets/panel.js.map',
    ]) {
      const reply = await ask(path, jar);
      expect([path, reply.status]).toEqual([path, 404]);
    }
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS']) {
      const reply = await ask('/', jar, method);
      expect([reply.status, reply.headers.allow]).toEqual([405, 'GET, HEAD']);
    }
    const head = await ask('/', jar, 'HEAD');
    expect([head.status, head.body]).toEqual([200, '']);
  });
});

describe('the socket of the panel', () => {
  it('opens with cookie and own Origin, and carries messages both ways', async () => {
    const { outcome, socket } = await knock({ Cookie: await cookie(), Origin: `http://127.0.0.1:${host.port}` });
    expect(outcome).toBe('open');
    const pipe = panels[0];
    if (!pipe) throw new Error('no panel');
    const heard = new Promise((resolve) => pipe.onMessage(resolve));
    socket.send('{"type":"call","id":1,"name":"look","args":{}}');
    expect(await heard).toEqual({ type: 'call', id: 1, name: 'look', args: {} });
    const told = new Promise((resolve) => socket.once('message', (data) => resolve(JSON.parse(String(data)))));
    pipe.send({ type: 'result', id: 1, outcome: { ok: true, value: null } });
    expect(await told).toEqual({ type: 'result', id: 1, outcome: { ok: true, value: null } });
    const closed = new Promise<void>((resolve) => pipe.onClose(resolve));
    socket.close();
    await closed;
  });

  it('refuses a wrong cookie, a foreign or missing Origin, a foreign Host, another path', async () => {
    const jar = { Cookie: await cookie() };
    const own = { Origin: `http://127.0.0.1:${host.port}` };
    const foreignHost = { Host: `penmarrow.example:${host.port}` };
    const outcomes = [
      await knock({ ...own }),
      await knock({ ...own, Cookie: `amberwick-${host.port}=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA` }),
      await knock({ ...jar, Origin: 'http://penmarrow.example' }),
      await knock({ ...jar, Origin: `http://localhost:${host.port}` }),
      await knock(jar),
      await knock({ ...jar, ...own, ...foreignHost }),
      await knock({ ...jar, ...own }, '/other'),
    ];
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(Array(7).fill('403'));
    expect(panels).toEqual([]);
  });

  it('is closed on text that is no message', async () => {
    const { socket } = await knock({ Cookie: await cookie(), Origin: `http://127.0.0.1:${host.port}` });
    panels[0]?.onMessage(() => {});
    const closed = new Promise((resolve) => socket.once('close', resolve));
    socket.send('{"type":');
    expect(await closed).toBe(1003);
  });
});
