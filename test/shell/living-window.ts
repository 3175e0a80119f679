/**
 * A Chromium page in the place of a stand-in window. The shell's own code does the work: its protocol handler serves the
 * files with its headers, its built preload runs in an isolated world of the page without Node, its IPC handler hears
 * the frame that really called, its guards are asked about each navigation, window, download and permission, and do as
 * they say. Preferences of the window are obeyed, the careless ones, too, so that a test can see them matter.
 *
 * The scheme `app:` is none of Chromium's, so pages see `https://panel` instead.
 */
import { readFileSync } from 'node:fs';
import type { Browser, BrowserContext, CDPSession, Page, Route } from 'playwright-core';
import { bridgeScript, NODE_FOR_PAGES, preloadScript, WORLD } from './bridge-scripts.ts';
import { ipcMain, protocol, type StandInContents, type StandInSession, type StandInWindow } from './stand-in.ts';

const SHOWN = 'https://panel/';
const REAL = 'app://panel/';
const BINDING = 'standInToMain';
/** Longest wait for a page, ms. */
const PATIENCE = 90_000;
/** Permissions that Chromium can grant to a page here, by its names and Electron's. */
const PERMISSIONS = {
  geolocation: 'geolocation',
  notifications: 'notifications',
  camera: 'media',
  midi: 'midi',
} as const;

export const toShown = (address: string): string => address.replace(/^(blob:)?app:\/\//, '$1https://');
export const toReal = (address: string): string =>
  address.replace(/^(blob:)?https:\/\/panel(?=[/?#]|$)/, '$1app://panel');

export interface LivingWindow {
  readonly page: Page;
  /** Addresses outside the panel that a request was sent to; nothing answers there but an empty page. */
  readonly left: string[];
  /** Windows that were opened and not refused. */
  readonly windows: string[];
  /** Downloads that were not refused. */
  readonly saved: string[];
  /** What the page complained about. */
  readonly complaints: string[];
  /** A message as a page sends it that has broken out of its world: with its real frame, past the preload. */
  sendFrom(frame: { url: string; parent: unknown } | null, channel: string, ...args: unknown[]): Promise<unknown>;
  close(): Promise<void>;
}

interface Frame {
  readonly url: string;
  readonly parent: Frame | null;
}

export async function bringToLife(
  window: StandInWindow,
  session: StandInSession,
  browser: Browser,
): Promise<LivingWindow> {
  const preferences = window.options.webPreferences;
  const context = await browser.newContext({
    javaScriptEnabled: preferences.javascript !== false,
    bypassCSP: preferences.webSecurity === false,
    acceptDownloads: true,
    viewport: { width: 1280, height: 720 },
  });
  const page = await context.newPage();
  // Machines that run tests are often busy with something else, too.
  page.setDefaultTimeout(PATIENCE);
  const living: LivingWindow = {
    ...{ page, left: [], windows: [], saved: [], complaints: [] },
    sendFrom: (frame, channel, ...args) => toMain(window.webContents, frame, channel, args),
    close: () => context.close(),
  };
  page.on('pageerror', (error) => living.complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') living.complaints.push(message.text());
  });
  await permit(session, context);
  await page.route('**', (route) => serve(route, window.webContents, living));
  page.on('popup', async (popup) => {
    const { openHandler } = window.webContents;
    const address = toReal(popup.url());
    if (openHandler?.({ url: address }).action === 'deny') await popup.close();
    else living.windows.push(address);
  });
  page.on('download', async (download) => {
    const item = { getURL: () => toReal(download.url()) };
    if (asked((event) => session.emit('will-download', event, item))) await download.cancel();
    else living.saved.push(download.suggestedFilename());
  });
  await joinWorlds(await context.newCDPSession(page), page, window);
  if (preferences.nodeIntegration === true) await page.addInitScript(NODE_FOR_PAGES);
  await page.goto(toShown(window.address));
  return living;
}

/** Whether something was prevented. */
function asked(tell: (event: { preventDefault(): void }) => void): boolean {
  let prevented = false;
  tell({ preventDefault: () => (prevented = true) });
  return prevented;
}

/** What Electron's session would answer becomes what Chromium does. */
async function permit(session: StandInSession, context: BrowserContext): Promise<void> {
  const request = session.request as ((c: null, permission: string, answer: (is: boolean) => void) => void) | null;
  const check = session.check as ((c: null, permission: string) => boolean) | null;
  const granted = Object.entries(PERMISSIONS).filter(([, name]) => {
    let answered = request === null;
    request?.(null, name, (is) => (answered = is));
    return answered && (check === null || check(null, name));
  });
  await context.grantPermissions(
    granted.map(([name]) => name),
    { origin: SHOWN.slice(0, -1) },
  );
}

async function serve(route: Route, contents: StandInContents, living: LivingWindow): Promise<void> {
  const request = route.request();
  const address = toReal(request.url());
  // The first address is loaded by the shell itself, which asks nobody.
  if (request.isNavigationRequest() && living.page.url() !== 'about:blank') {
    const isTop = request.frame() === living.page.mainFrame();
    const refused = asked((event) => {
      const told = Object.assign(event, { url: address });
      if (isTop) contents.emit('will-navigate', told);
      contents.emit('will-frame-navigate', told);
    });
    if (refused) return route.abort('aborted');
  }
  if (!address.startsWith(REAL)) {
    living.left.push(address);
    return route.fulfill({ status: 200, contentType: 'text/html', body: '<!doctype html><title>Elsewhere</title>' });
  }
  const handler = protocol.handlers.get('app');
  if (!handler) return route.abort();
  const response = handler(new Request(address, { method: request.method() }));
  return route.fulfill({
    status: response.status,
    headers: Object.fromEntries(response.headers),
    body: Buffer.from(await response.arrayBuffer()),
  });
}

/** Electron answers what comes from a frame; here a test may be the frame. */
async function toMain(contents: StandInContents, senderFrame: unknown, channel: string, args: unknown[]) {
  const handler = ipcMain.handlers.get(channel);
  if (!handler) throw new Error(`No handler registered for '${channel}'`);
  return handler({ sender: contents, senderFrame }, ...args);
}

/** The preload in its world, joined to the main program on one side and to the page's world on the other. */
async function joinWorlds(cdp: CDPSession, page: Page, window: StandInWindow): Promise<void> {
  const { preload, contextIsolation, nodeIntegrationInSubFrames } = window.options.webPreferences;
  if (typeof preload !== 'string') return;
  const worldName = contextIsolation === false ? undefined : WORLD;
  const contexts = new Map<number, string>();
  let top: number | null = null;
  await cdp.send('Page.enable');
  await cdp.send('Runtime.enable');
  const { frameTree } = await cdp.send('Page.getFrameTree');
  cdp.on('Runtime.executionContextCreated', ({ context }) => {
    const { frameId, isDefault } = context.auxData as unknown as { frameId: string; isDefault: boolean };
    if (worldName === undefined ? !isDefault : context.name !== worldName) return;
    contexts.set(context.id, frameId);
    if (frameId === frameTree.frame.id) top = context.id;
  });
  cdp.on('Runtime.executionContextsCleared', () => {
    top = null;
  });
  const evaluate = async (contextId: number, message: unknown): Promise<void> => {
    const expression = `standInFromMain(${JSON.stringify(JSON.stringify(message))})`;
    // A page that has gone hears nothing more.
    await cdp.send('Runtime.evaluate', { expression, contextId }).catch(() => {});
  };
  cdp.on('Runtime.bindingCalled', async ({ name, payload, executionContextId }) => {
    if (name !== BINDING) return;
    const { id, channel, args } = JSON.parse(payload);
    const isTop = contexts.get(executionContextId) === frameTree.frame.id;
    const frame: Frame = { url: toReal(page.url()), parent: isTop ? null : { url: toReal(page.url()), parent: null } };
    const answer = await toMain(window.webContents, frame, channel, args).then(
      (value) => ({ answer: id, value }),
      (error) => ({ answer: id, error: String(error) }),
    );
    await evaluate(executionContextId, answer);
  });
  window.webContents.on('stand-in-sent', ([channel, ...args]: unknown[]) => {
    if (top !== null) void evaluate(top, { event: channel, args });
  });
  await cdp.send('Runtime.addBinding', { name: BINDING, ...(worldName ? { executionContextName: worldName } : {}) });
  const everywhere = nodeIntegrationInSubFrames === true;
  if (worldName) await cdp.send('Page.addScriptToEvaluateOnNewDocument', { source: bridgeScript(everywhere) });
  const source = preloadScript(readFileSync(preload, 'utf8'), {
    binding: BINDING,
    everywhere,
    isolated: worldName !== undefined,
  });
  await cdp.send('Page.addScriptToEvaluateOnNewDocument', { source, ...(worldName ? { worldName } : {}) });
}
