/** The one window, where it was left. */
import { BrowserWindow, screen } from 'electron';
import { PANEL_ADDRESS } from './address.ts';
import { LEAST, placeWindow, readWindowState, type WindowState, writeWindowState } from './window-state.ts';

/** `file` remembers where the window was. */
export function openWindow(preload: string, file: string): BrowserWindow {
  const { maximised, fullScreen, ...bounds } = placeWindow(readWindowState(file), areas());
  const window = new BrowserWindow({
    title: 'Amberwick',
    ...bounds,
    minWidth: LEAST.width,
    minHeight: LEAST.height,
    show: false,
    backgroundColor: '#14161a',
    webPreferences: {
      preload,
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
    },
  });
  // Shown when drawn: no white flash in a dark layout room.
  window.once('ready-to-show', () => {
    if (maximised) window.maximize();
    if (fullScreen) window.setFullScreen(true);
    window.show();
  });
  window.on('close', () => writeWindowState(file, stateOf(window)));
  void window.loadURL(PANEL_ADDRESS);
  return window;
}

/** To the front, from wherever it was put away to. */
export function bringForward(window: BrowserWindow | null): void {
  if (!window || window.isDestroyed()) return;
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
}

function areas() {
  const primary = screen.getPrimaryDisplay();
  const others = screen.getAllDisplays().filter(({ id }) => id !== primary.id);
  return [primary, ...others].map(({ workArea }) => workArea);
}

function stateOf(window: BrowserWindow): WindowState {
  return { ...window.getNormalBounds(), maximised: window.isMaximized(), fullScreen: window.isFullScreen() };
}
