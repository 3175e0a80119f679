/**
 * The security checklist of the Electron documentation, item by item, by trying to break each: the shell's real main
 * program, preload and host, with the real panel in a Chromium page (`living-window.ts` says how). Where the shell
 * would be careless a control shows that the attack works.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { buildShell } from '../../electron/shell/build.ts';
import { startBrowser } from '../../scripts/setup/chromium.ts';
import type { Workbench } from '../../shared/workbench/contract.ts';
import { bringToLife, type LivingWindow } from './living-window.ts';
import { app, dialog, Menu, StandInContents, StandInSession, StandInWindow, session, shell } from './stand-in.ts';

vi.mock('electron', () => import('./stand-in.ts'));

const root = fileURLToPath(new URL('../../', import.meta.url));
const ELSEWHERE = 'https://penmarrow.example/';
/** Time for something to happen that must not, ms. */
const WHILE = 300;

declare global {
  interface Window {
    amberwick: Workbench;
    seen: unknown;
  }
}

let folder: string;
let browser: Browser;
let pane: StandInWindow;
let living: LivingWindow;
let page: Page;
/** A window as nobody should make one, to show that the attacks work there. */
let careless: LivingWindow;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'amberwick-checklist-'));
  mkdirSync(join(folder, 'dist'));
  vi.stubEnv('AMBERWICK_DATA', join(folder, 'data'));
  await build({
    ...{ configFile: join(root, 'vite.config.ts'), logLevel: 'error' },
    build: { outDir: join(folder, 'dist', 'panel') },
  });
  await buildShell(join(folder, 'dist', 'electron', 'shell'), ['preload']);
  browser = await startBrowser();
  app.path = folder;
  await import('../../electron/main.ts');
  await vi.waitFor(() => expect(StandInWindow.all).toHaveLength(1), 60_000);
  pane = StandInWindow.all[0] as StandInWindow;
  living = await bringToLife(pane, session.defaultSession, browser);
  page = living.page;
  await page.evaluate(() => localStorage.setItem('amberwick welcomed', 'yes'));
  await page.reload();
  await page.getByText('Market Cross').first().waitFor();
  careless = await openCarelessly();
}, 300_000);
afterAll(async () => {
  app.emit('before-quit', { preventDefault() {} });
  await vi.waitFor(() => expect(app.quits).toBe(1), 60_000);
  await browser.close();
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});
beforeEach(() => {
  living.left.length = 0;
  living.complaints.length = 0;
});

const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, WHILE));

async function openCarelessly(): Promise<LivingWindow> {
  const preferences = { nodeIntegration: true, contextIsolation: false, webSecurity: false };
  const window = new StandInWindow({ webPreferences: { ...pane.options.webPreferences, ...preferences } });
  StandInWindow.all.pop();
  // As if nobody had guarded it.
  window.webContents.removeAllListeners();
  window.webContents.openHandler = null;
  await window.loadURL('app://panel/');
  return bringToLife(window, new StandInSession(), browser);
}

describe('the panel in its window', () => {
  it('draws itself, speaks with the host both ways, and complains of nothing', async () => {
    await page.reload();
    await page.getByText('Market Cross').first().waitFor();
    const told = await page.evaluate(
      () =>
        new Promise((resolve) => {
          const quiet = window.amberwick.on('log', ({ text }) => {
            quiet();
            resolve(text);
          });
          void window.amberwick.call('remark', { text: 'The lamps look right.' });
        }),
    );
    expect(told).toBe('The lamps look right.');
    expect(living.complaints).toEqual([]);
  });

  it('fills the menus of the system, and does what is chosen in them', async () => {
    const items = () => (Menu.shown ?? []).flatMap(({ submenu }) => submenu ?? []);
    await vi.waitFor(() => expect(items().some(({ id }) => id === 'view-desk')).toBe(true), 60_000);
    items()
      .find(({ id }) => id === 'view-desk')
      ?.click?.({}, pane, {});
    await page.locator('.app.at-desk').waitFor();
    await vi.waitFor(() => expect(items().find(({ id }) => id === 'view-desk')?.checked).toBe(true), 60_000);
    expect(items().find(({ id }) => id === 'view-layout')?.checked).toBe(false);
    items()
      .find(({ id }) => id === 'view-layout')
      ?.click?.({}, pane, {});
    await page.locator('.app.at-layout').waitFor();
  });
});

describe('checklist of the Electron documentation', () => {
  it('1: everything that is loaded comes with the app', async () => {
    await page.reload();
    await page.getByText('Market Cross').first().waitFor();
    const loaded = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
    expect(loaded.length).toBeGreaterThan(2);
    expect(loaded.filter((name) => !name.startsWith('https://panel/'))).toEqual([]);
    expect(living.left).toEqual([]);
  });

  const NODE = ['require', 'process', 'module', 'Buffer', 'global', '__dirname', 'ipcRenderer', 'electron'];
  const found = (it: Page): Promise<string[]> => it.evaluate((all) => all.filter((name) => name in window), NODE);

  it('2: no Node in the page', async () => {
    expect(await found(page)).toEqual([]);
    expect(await found(careless.page)).toEqual(['require', 'process']);
  });

  /** The page changes what the preload's check of names is made of, then asks for a call that there is none of. */
  const poison = (): Promise<unknown> => {
    Object.hasOwn = () => true;
    return window.amberwick.call('erase' as 'look', {});
  };

  it('3: what the page changes of the language is not changed for the preload', async () => {
    const heard = vi.fn();
    const calls = await import('./stand-in.ts').then(({ ipcMain }) => ipcMain.handlers);
    const real = calls.get('amberwick:call');
    if (!real) throw new Error('no handler');
    calls.set('amberwick:call', (event, name, args) => {
      heard(name);
      return real(event, name, args);
    });
    const refused = { ok: false, problem: { code: 'badRequest' } };
    expect(await page.evaluate(poison)).toMatchObject(refused);
    expect(heard.mock.calls.flat()).not.toContain('erase');
    await careless.page.evaluate(poison);
    expect(heard.mock.calls.flat()).toContain('erase');
    calls.set('amberwick:call', real);
    await page.reload();
    await page.getByText('Market Cross').first().waitFor();
  });

  it('4: every page is in the sandbox, and the preload needs nothing that a sandbox lacks', async () => {
    expect(app.sandboxed).toBe('before ready');
    expect(pane.options.webPreferences.sandbox).toBe(true);
    const { guardSandbox } = await import('../../electron/shell/guards.ts');
    app.switches.add('no-sandbox');
    expect([guardSandbox(app as never), app.exitCode, dialog.shown.length]).toEqual([false, 1, 1]);
    app.switches.clear();
    dialog.shown.length = 0;
    expect(guardSandbox(app as never)).toBe(true);
    app.sandboxed = 'before ready';
    // The built preload ran in the page with a `require` that knows Electron alone.
    expect(await page.evaluate(() => Object.keys(window.amberwick).sort())).toEqual(['call', 'on']);
  });

  const permissions = async (it: Page): Promise<unknown> =>
    it.evaluate(async () => {
      const place = await new Promise((resolve) =>
        navigator.geolocation.getCurrentPosition(
          () => resolve('told'),
          ({ code }) => resolve(code === 1 ? 'refused' : 'not known'),
          { timeout: 2000 },
        ),
      );
      const notices = (await navigator.permissions.query({ name: 'notifications' })).state;
      const camera = (await navigator.permissions.query({ name: 'camera' as PermissionName })).state;
      return { place, notices, camera };
    });

  it('5: no permission is given to a page', async () => {
    expect(await permissions(page)).toEqual({ place: 'refused', notices: 'denied', camera: 'denied' });
    const { request, check, device } = session.defaultSession;
    for (const name of [
      'media',
      'geolocation',
      'notifications',
      'serial',
      'hid',
      'usb',
      'openExternal',
      'fileSystem',
    ]) {
      const answers: boolean[] = [];
      (request as unknown as (c: null, n: string, a: (is: boolean) => void) => void)(null, name, (is) =>
        answers.push(is),
      );
      expect([name, answers, check?.(), device?.()]).toEqual([name, [false], false, false]);
    }
    expect(await permissions(careless.page)).toMatchObject({ notices: 'granted', camera: 'granted' });
  });

  /** What of other origins the page gets to see. */
  const across = (it: Page): Promise<unknown> =>
    it.evaluate(
      async (elsewhere) => ({
        read: await fetch(elsewhere).then(
          () => 'read',
          () => 'refused',
        ),
        drawn: await new Promise((resolve) => {
          const frame = document.createElement('iframe');
          frame.addEventListener('load', () => {
            try {
              resolve(frame.contentWindow?.location.href);
            } catch {
              resolve('refused');
            }
          });
          frame.src = elsewhere;
          document.body.append(frame);
        }),
      }),
      ELSEWHERE,
    );

  it('6: the rules of the web hold', async () => {
    expect(pane.options.webPreferences.webSecurity).toBe(true);
    expect(await across(page)).toEqual({ read: 'refused', drawn: 'refused' });
    expect(living.left).toEqual([]);
    await across(careless.page);
    expect(careless.left).toContain(ELSEWHERE);
  });

  it('7: nothing inline runs or paints, nothing remote is loaded, no code is made from text', async () => {
    await page.reload();
    await page.getByText('Market Cross').first().waitFor();
    const seen = await page.evaluate(async (elsewhere) => {
      const refused: string[] = [];
      document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) =>
        refused.push(`${effectiveDirective} ${blockedURI.replace(/^blob:.*/, 'blob')}`),
      );
      const add = (name: string, parts: Record<string, string>, text = ''): HTMLElement => {
        const made = document.createElement(name);
        for (const [key, value] of Object.entries(parts)) made.setAttribute(key, value);
        made.textContent = text;
        document.body.append(made);
        return made;
      };
      add('script', {}, 'window.seen = "script"');
      add('button', { onclick: 'window.seen = "handler"' }).click();
      add('style', {}, 'body { outline: 7px solid }');
      const painted = add('p', { style: 'outline: 7px solid' });
      add('script', { src: `${elsewhere}a.js` });
      add('link', { rel: 'stylesheet', href: `${elsewhere}a.css` });
      add('img', { src: `${elsewhere}a.png` });
      add('object', { data: `${elsewhere}a.html`, type: 'text/html' });
      add('iframe', { src: elsewhere });
      add('video', { src: `${elsewhere}a.mp4` });
      (add('form', { action: elsewhere }) as HTMLFormElement).submit();
      // What a debugger runs may make code from text; from here on it is the page itself.
      await new Promise((resolve) => setTimeout(resolve, 300));
      add('base', { href: elsewhere });
      const made: string[] = [];
      for (const [name, make] of [
        // biome-ignore lint/security/noGlobalEval: that is the attack
        ['eval', () => globalThis.eval('window.seen = "eval"')],
        ['function', () => new Function('window.seen = "function"')()],
      ] as const) {
        try {
          make();
          made.push(name);
        } catch {
          // As it should be.
        }
      }
      new WebSocket('wss://penmarrow.example/');
      new Worker(URL.createObjectURL(new Blob(['0'])));
      await fetch(elsewhere).catch(() => {});
      navigator.sendBeacon(elsewhere);
      await new Promise((resolve) => setTimeout(resolve, 300));
      const outlines = [document.body, painted].map((it) => getComputedStyle(it).outlineWidth !== '7px');
      return { refused: [...new Set(refused)].sort(), seen: window.seen ?? null, made, unpainted: outlines };
    }, ELSEWHERE);
    expect(seen).toEqual({
      refused: [
        'base-uri https://penmarrow.example/',
        'connect-src https://penmarrow.example/',
        'connect-src wss://penmarrow.example/',
        'form-action https://penmarrow.example/?',
        'frame-src https://penmarrow.example',
        'img-src https://penmarrow.example/a.png',
        'media-src https://penmarrow.example/a.mp4',
        'object-src https://penmarrow.example',
        'script-src eval',
        'script-src-attr inline',
        'script-src-elem https://penmarrow.example/a.js',
        'script-src-elem inline',
        'style-src-attr inline',
        'style-src-elem https://penmarrow.example/a.css',
        'style-src-elem inline',
        'worker-src blob',
      ],
      seen: null,
      made: [],
      unpainted: [true, true],
    });
    expect(living.left).toEqual([]);
    await page.reload();
  });

  it('8 to 10: no window asks for insecure content, experiments or features of the engine', async () => {
    const { createPdfPrinter } = await import('../../electron/shell/pdf.ts');
    await createPdfPrinter()('<!doctype html><p>Market Cross</p>');
    const windows = [pane, StandInWindow.all.at(-1) as StandInWindow];
    expect(windows[0]).not.toBe(windows[1]);
    for (const { options } of windows) {
      const { webPreferences } = options;
      expect(webPreferences.allowRunningInsecureContent ?? false).toBe(false);
      expect(webPreferences.experimentalFeatures ?? false).toBe(false);
      expect(Object.keys(webPreferences)).not.toContain('enableBlinkFeatures');
      expect([webPreferences.sandbox, webPreferences.webviewTag]).toEqual([true, false]);
    }
  });

  it('11 and 12: a page within the page is neither known nor let in', async () => {
    await page.evaluate((elsewhere) => {
      const view = document.createElement('webview');
      view.setAttribute('src', elsewhere);
      view.setAttribute('allowpopups', '');
      view.setAttribute('nodeintegration', '');
      document.body.append(view);
    }, ELSEWHERE);
    await pause();
    expect(living.left).toEqual([]);
    expect(pane.options.webPreferences.webviewTag).toBe(false);
    // Were it known all the same, it would be refused when it is attached, whatever it shows.
    for (const src of [ELSEWHERE, 'app://panel/', 'about:blank']) {
      let prevented = 0;
      const event = { preventDefault: () => (prevented += 1) };
      pane.webContents.emit('will-attach-webview', event, { preload: '/tmp/other.js' }, { src });
      expect(prevented).toBe(1);
    }
  });

  const LEAVING: Record<string, (elsewhere: string) => void> = {
    'an address': (elsewhere) => {
      location.href = elsewhere;
    },
    'a replaced address': (elsewhere) => location.replace(elsewhere),
    'a link': (elsewhere) => {
      const link = document.body.appendChild(document.createElement('a'));
      link.href = elsewhere;
      link.click();
    },
    'a refresh': (elsewhere) => {
      const refresh = document.head.appendChild(document.createElement('meta'));
      refresh.httpEquiv = 'refresh';
      refresh.content = `0;url=${elsewhere}`;
    },
    'a file': () => {
      location.href = 'file:///etc/hosts';
    },
    'a page made from text': () => {
      location.href = 'data:text/html,<title>Elsewhere</title>';
    },
    'code as an address': () => {
      location.href = 'javascript:document.title="Elsewhere"';
    },
  };

  it.each(Object.keys(LEAVING))('13: the panel cannot be left by %s', async (way) => {
    await page.evaluate(LEAVING[way] as (elsewhere: string) => void, ELSEWHERE);
    await pause();
    const title = await page.evaluate(() => document.title);
    expect([page.url(), title, living.left]).toEqual(['https://panel/', 'Amberwick', []]);
  });

  const open = (address: string): void => {
    globalThis.open(address);
    const link = document.body.appendChild(document.createElement('a'));
    link.href = address;
    link.target = '_blank';
    link.click();
  };

  it('14: no further window, not even of the panel itself', async () => {
    for (const address of [ELSEWHERE, 'https://panel/', 'about:blank']) await page.evaluate(open, address);
    await vi.waitFor(() => expect(page.context().pages()).toEqual([page]), 60_000);
    expect(living.windows).toEqual([]);
    await careless.page.evaluate(open, 'about:blank');
    await vi.waitFor(() => expect(careless.windows).toContain('about:blank'), 60_000);
  });

  it('13 again: a careless shell would let the panel be left', async () => {
    careless.left.length = 0;
    await careless.page.evaluate(LEAVING['an address'] as (elsewhere: string) => void, ELSEWHERE);
    await careless.page.waitForURL(ELSEWHERE);
    expect(careless.left).toEqual([ELSEWHERE]);
  });

  it('15: nothing is handed to other programs, and nothing in the shell could', () => {
    expect(shell.opened).toEqual([]);
    const sources = readdirSync(join(root, 'electron'), { recursive: true, encoding: 'utf8' });
    const calling = sources
      .filter((name) => name.endsWith('.ts'))
      .filter((name) =>
        /\bshell\b[^'"]*from 'electron'|openExternal|openPath\(.*shell/.test(
          readFileSync(join(root, 'electron', name), 'utf8'),
        ),
      );
    expect(calling).toEqual([]);
  });

  it('16: the version of Electron is pinned, so that each newer one is chosen knowingly and installed everywhere', () => {
    const { devDependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
    expect(devDependencies.electron).toMatch(/^\d+\.\d+\.\d+$/);
    expect(lock.packages['node_modules/electron'].version).toBe(devDependencies.electron);
  });

  it('17: calls are heard from the panel in the main frame alone', async () => {
    const inside = await page.evaluate(() => {
      const frame = document.createElement('iframe');
      frame.srcdoc = '<p>Inside';
      document.body.append(frame);
      return new Promise((resolve) =>
        frame.addEventListener('load', () => resolve(typeof frame.contentWindow?.window.amberwick)),
      );
    });
    expect(inside).toBe('undefined');
    const panel = { url: 'app://panel/', parent: null };
    const say = (frame: Parameters<LivingWindow['sendFrom']>[0]) =>
      living.sendFrom(frame, 'amberwick:call', 'remark', { text: 'Let me in.' });
    const refused = { ok: false, problem: { code: 'badRequest' } };
    expect(await say({ url: 'about:srcdoc', parent: panel })).toMatchObject(refused);
    expect(await say({ url: 'app://panel/', parent: panel })).toMatchObject(refused);
    for (const url of [
      ELSEWHERE,
      'file:///panel/',
      'app://panel.example/',
      'app://other/',
      'https://panel/',
      '',
      'app:panel',
    ]) {
      expect(await say({ url, parent: null })).toMatchObject(refused);
    }
    expect(await say(null)).toMatchObject(refused);
    pane.destroyed = true;
    expect(await say(panel)).toMatchObject(refused);
    pane.destroyed = false;
    const { ipcMain } = await import('./stand-in.ts');
    const foreign = { sender: new StandInContents(), senderFrame: panel };
    expect(await ipcMain.handlers.get('amberwick:call')?.(foreign, 'remark', { text: 'Let me in.' })).toMatchObject(
      refused,
    );
    expect(await say(panel)).toEqual({ ok: true, value: null });
    const { value } = (await living.sendFrom(panel, 'amberwick:call', 'readLog', {})) as { value: { text: string } };
    expect(value.text.match(/Let me in\./g)).toHaveLength(1);
    expect([...ipcMain.handlers.keys()]).toEqual(['amberwick:call']);
    await expect(living.sendFrom(panel, 'amberwick:event', {})).rejects.toThrow('No handler');
  });
});

describe('what the page saves', () => {
  const save = (address: string): void => {
    const link = document.body.appendChild(document.createElement('a'));
    link.href = address === 'blob' ? URL.createObjectURL(new Blob(['lamps'])) : address;
    link.download = 'lamps.txt';
    link.click();
  };

  it('is what it made itself, and nothing from elsewhere', async () => {
    await page.evaluate(save, 'blob');
    await vi.waitFor(() => expect(living.saved).toEqual(['lamps.txt']), 60_000);
    await page.evaluate(save, `${ELSEWHERE}lamps.txt`);
    await pause();
    expect([living.saved, page.url()]).toEqual([['lamps.txt'], 'https://panel/']);
    expect(dialog.shown).toEqual([]);
  });
});
