import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { HostOptions } from '../../electron/host/service/host.ts';
import { CALLS, type CallName } from '../../shared/workbench/contract.ts';
import { answerCall, type Handlers } from '../../shared/workbench/serve.ts';
import { CALL_NAMES } from '../../shared/workbench/wire.ts';
import { app, dialog, ipcMain, Menu, protocol, StandInContents, StandInWindow, session } from './stand-in.ts';

vi.mock('electron', () => import('./stand-in.ts'));

const host = vi.hoisted(() => ({
  calls: [] as unknown[],
  options: null as HostOptions | null,
  opened: [] as string[],
  tell: (_name: string, _data: unknown): void => {},
  started: 0,
  closed: 0,
}));
vi.mock('../../electron/host/service/host.ts', () => ({
  createHost: (options: HostOptions) => ({
    openPath: async (path: string) => {
      host.opened.push(path);
      const problem = { code: 'layoutUnreadable', what: 'What.', why: 'Why.', next: 'Next.' };
      return path.includes('broken') ? { ok: false, problem } : { ok: true, value: null };
    },
    handlers: {
      remark: (args: unknown) => {
        host.calls.push(args);
        return { ok: true, value: null };
      },
    },
    telling: (listener: (name: string, data: unknown) => void) => {
      host.tell = listener;
      host.options = options;
      return () => {};
    },
    start: async () => {
      host.started += 1;
    },
    close: async () => {
      host.closed += 1;
    },
  }),
}));

let folder: string;
let window: StandInWindow;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'shell-'));
  mkdirSync(join(folder, 'dist', 'panel'), { recursive: true });
  writeFileSync(join(folder, 'dist', 'panel', 'index.html'), '<!doctype html><title>Panel</title>');
  writeFileSync(join(folder, 'dist', 'secret.html'), 'not for the page');
  app.path = folder;
  vi.stubEnv('AMBERWICK_DATA', join(folder, 'data'));
  process.argv.push('/trains/first.amberwick');
  await import('../../electron/main.ts');
  await vi.waitFor(() => expect(host.started).toBe(1), 60_000);
  window = StandInWindow.all[0] as StandInWindow;
});
afterAll(() => {
  process.argv.pop();
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

describe('the window', () => {
  it('is one, on the panel, in a sandbox without Node', () => {
    expect(StandInWindow.all).toHaveLength(1);
    expect(window.address).toBe('app://panel/');
    expect(window.options.webPreferences).toEqual({
      preload: join(folder, 'dist', 'electron', 'shell', 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      spellcheck: false,
    });
    expect([window.options.show, window.shown]).toEqual([false, false]);
    window.emit('ready-to-show');
    expect(window.shown).toBe(true);
  });

  it('goes nowhere else, opens no other window, embeds no view', () => {
    const { webContents } = window;
    const tried = (name: string, url: string): boolean => {
      let prevented = false;
      webContents.emit(name, { url, preventDefault: () => (prevented = true) });
      return prevented;
    };
    for (const event of ['will-navigate', 'will-redirect', 'will-frame-navigate']) {
      expect(tried(event, 'https://penmarrow.example/')).toBe(true);
      expect(tried(event, 'file:///etc/hosts')).toBe(true);
      expect(tried(event, 'app://other/')).toBe(true);
      expect(tried(event, 'not an address')).toBe(true);
      expect(tried(event, 'app://panel/')).toBe(false);
    }
    expect(tried('will-attach-webview', 'app://panel/')).toBe(true);
    expect(webContents.openHandler?.({ url: 'app://panel/' })).toEqual({ action: 'deny' });
  });

  it('has menus from the start', () => {
    expect(Menu.shown?.length).toBeGreaterThanOrEqual(3);
  });

  it('is granted no permission', () => {
    const { request, check, device } = session.defaultSession;
    const answers: boolean[] = [];
    (request as unknown as (c: null, p: string, a: (granted: boolean) => void) => void)(null, 'media', (granted) =>
      answers.push(granted),
    );
    expect(answers).toEqual([false]);
    expect(check?.()).toBe(false);
    expect(device?.()).toBe(false);
  });
});

describe('files that the system hands over', () => {
  it('are opened when the host has started: the one of this start first', async () => {
    await vi.waitFor(() => expect(host.opened).toEqual(['/trains/first.amberwick']), 60_000);
    app.emit('open-file', { preventDefault() {} }, '/trains/second.amberwick');
    expect(host.opened.at(-1)).toBe('/trains/second.amberwick');
  });

  it('come from a second start, too, which brings the window forward and goes', () => {
    window.minimised = true;
    app.emit('second-instance', {}, ['amberwick', folder, '--lang=en', 'quay.json'], '/trains');
    expect(host.opened.at(-1)).toBe('/trains/quay.json');
    expect([window.minimised, window.focused, StandInWindow.all.length]).toEqual([false, 1, 1]);
    const before = host.opened.length;
    app.emit('second-instance', {}, ['amberwick', folder], '/trains');
    expect([host.opened.length, window.focused]).toEqual([before, 2]);
    app.isPackaged = true;
    app.emit('second-instance', {}, ['/opt/Amberwick/amberwick', 'quay.json'], '/trains');
    app.isPackaged = false;
    expect(host.opened).toHaveLength(before + 1);
  });

  it('are told about when they are no layouts', async () => {
    app.emit('open-file', { preventDefault() {} }, '/trains/broken.json');
    await vi.waitFor(() => expect(dialog.shown).toEqual(['What. Why.\nNext.']), 60_000);
  });
});

describe('the dialogs of the system', () => {
  it('ask for a layout, a place to save it, a photo; null when the person thinks better of it', async () => {
    const { chooser, choosePhoto } = host.options ?? {};
    dialog.answer = '/trains/quay.amberwick';
    expect(await chooser?.open()).toBe('/trains/quay.amberwick');
    expect(await chooser?.saveAs('Quay Hill.json')).toBe('/trains/quay.amberwick');
    dialog.answer = null;
    expect([await chooser?.open(), await chooser?.saveAs('a.json'), await choosePhoto?.()]).toEqual([null, null, null]);
    expect(dialog.asked.map(({ title, defaultPath, properties }) => [title, defaultPath, properties])).toEqual([
      ['Open a layout', undefined, ['openFile']],
      ['Save the layout', 'Quay Hill.json', ['showOverwriteConfirmation', 'createDirectory']],
      ['Open a layout', undefined, ['openFile']],
      ['Save the layout', 'a.json', ['showOverwriteConfirmation', 'createDirectory']],
      ['Attach a photo', undefined, ['openFile']],
    ]);
  });
});

describe('the panel under its own scheme', () => {
  const get = (address: string, method = 'GET'): Response => {
    const handler = protocol.handlers.get('app');
    if (!handler) throw new Error('no handler');
    return handler(new Request(address, { method }));
  };

  it('is registered before the app is ready, with no privilege beyond an origin', () => {
    expect(protocol.schemes).toEqual([{ scheme: 'app', privileges: { standard: true, secure: true } }]);
    expect(protocol.registeredBeforeReady).toBe(true);
  });

  it('comes with a policy that allows its own files and no connection', async () => {
    const page = get('app://panel/');
    expect(await page.text()).toBe('<!doctype html><title>Panel</title>');
    expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(page.headers.get('content-security-policy')).toBe(
      "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data: blob:; " +
        "connect-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    );
    expect(page.headers.get('x-content-type-options')).toBe('nosniff');
  });

  it('serves nothing but the panel', () => {
    expect(get('app://panel/secret.html').status).toBe(404);
    expect(get('app://panel/..%2fsecret.html').status).toBe(404);
    expect(get('app://other/index.html').status).toBe(404);
    for (const method of ['POST', 'PUT', 'DELETE', 'HEAD', 'OPTIONS']) {
      expect(get('app://panel/', method).status).toBe(404);
    }
  });

  it.each([
    ...['app://panel/../secret.html', 'app://panel/%2e%2e/secret.html', 'app://panel/%2e%2e%2fsecret.html'],
    ...['app://panel/..%5csecret.html', 'app://panel/..%252fsecret.html', 'app://panel//secret.html'],
    ...['app://panel/index.html%00.js', 'app://panel/./../secret.html', 'app://panel/panel/../../secret.html'],
    ...[
      'app://panel/C:/secret.html',
      'app://panel//etc/hosts',
      'app://panel/file:///etc/hosts',
      'app://panel/INDEX.HTML',
    ],
    ...['app://panel:8080/', 'app://panel.example/', 'app:panel/'],
  ])('gives nothing to %s', async (address) => {
    const answer = get(address);
    expect([answer.status, await answer.text()]).toEqual([404, '']);
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
  });
});

describe('calls from the page', () => {
  const frame = (url: string, parent: unknown = null) => ({ url, parent });
  const call = (event: { sender: unknown; senderFrame: unknown }, name: string, args: unknown): Promise<unknown> => {
    const handler = ipcMain.handlers.get('amberwick:call');
    if (!handler) throw new Error('no handler');
    return Promise.resolve(handler(event, name, args));
  };

  it('reach the host when they come from the panel', async () => {
    const sender = window.webContents;
    const outcome = await call({ sender, senderFrame: frame('app://panel/') }, 'remark', { text: 'Looks right.' });
    expect(outcome).toEqual({ ok: true, value: null });
    expect(host.calls).toEqual([{ text: 'Looks right.' }]);
  });

  it('are refused from every other sender', async () => {
    const before = host.calls.length;
    const sender = window.webContents;
    const foreign = [
      { sender, senderFrame: frame('https://penmarrow.example/') },
      { sender, senderFrame: frame('file:///index.html') },
      { sender, senderFrame: frame('app://panel.example/') },
      { sender, senderFrame: frame('app://panel/', frame('app://panel/')) },
      { sender, senderFrame: null },
      { sender: new StandInContents(), senderFrame: frame('app://panel/') },
    ];
    for (const event of foreign) {
      expect(await call(event, 'remark', { text: 'Let me in.' })).toMatchObject({
        ok: false,
        problem: { code: 'badRequest' },
      });
    }
    expect(host.calls).toHaveLength(before);
  });

  it('are narrowed before a handler sees them', async () => {
    const event = { sender: window.webContents, senderFrame: frame('app://panel/') };
    expect(await call(event, 'remark', { text: 7 })).toMatchObject({ ok: false, problem: { code: 'badRequest' } });
    expect(await call(event, 'format', {})).toMatchObject({ ok: false, problem: { code: 'badRequest' } });
  });

  it('are narrowed whatever they are: no name that is none, no argument of another shape reaches a handler', async () => {
    const heard: [string, unknown][] = [];
    const spies = Object.fromEntries(
      CALL_NAMES.map((name) => [
        name,
        (args: unknown) => {
          heard.push([name, args]);
          return { ok: true, value: null };
        },
      ]),
    ) as unknown as Handlers;
    const names = fc.oneof(
      fc.constantFrom(...CALL_NAMES),
      fc.constantFrom('__proto__', 'constructor', 'toString', 'hasOwnProperty', ''),
      fc.anything(),
    );
    const keys = ['board', 'port', 'text', 'name', 'what', 'menus', 'ms', 'site', 'dial', 'id', 'path', '__proto__'];
    const values = fc.oneof(
      fc.anything(),
      fc.string(),
      fc.integer(),
      fc.constantFrom('../../etc/hosts', 'x'.repeat(5000)),
    );
    const args = fc.oneof(fc.anything(), fc.dictionary(fc.constantFrom(...keys), values));
    await fc.assert(
      fc.asyncProperty(names, args, async (name, given) => {
        const before = heard.length;
        const outcome = await answerCall(spies, name, given);
        if (!outcome.ok) expect([outcome.problem.code, heard.length]).toEqual(['badRequest', before]);
        for (const [called, arrived] of heard.slice(before)) {
          expect(called).toBe(name);
          // Nothing but what the call names, and no way to the prototype of anything.
          expect(CALLS[called as CallName].parse(arrived)).toEqual(arrived);
          expect(Object.getPrototypeOf(arrived)).toBe(Object.prototype);
        }
      }),
      { numRuns: 3000 },
    );
    expect(new Set(heard.map(([name]) => name)).size).toBeGreaterThan(3);
    expect(({} as Record<string, unknown>).board).toBeUndefined();
  });

  it('are answered by events to the window, while there is one', () => {
    host.tell('clock', { board: 'town', ms: 500, pace: 1 });
    expect(window.webContents.sent).toEqual([['amberwick:event', 'clock', { board: 'town', ms: 500, pace: 1 }]]);
    window.destroyed = true;
    host.tell('clock', { board: 'town', ms: 1000, pace: 1 });
    expect(window.webContents.sent).toHaveLength(1);
    window.destroyed = false;
  });
});

it('closes the host once before it quits', async () => {
  let prevented = 0;
  const event = { preventDefault: () => (prevented += 1) };
  app.emit('before-quit', event);
  await vi.waitFor(() => expect(app.quits).toBe(1), 60_000);
  app.emit('before-quit', event);
  expect([host.closed, prevented]).toEqual([1, 1]);
});
