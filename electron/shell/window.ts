/** The one window. */
import { BrowserWindow } from 'electron';
import { PANEL_ADDRESS } from './address.ts';

export function openWindow(preload: string): BrowserWindow {
  const window = new BrowserWindow({
    title: 'Amberwick',
    width: 1440,
    height: 900,
    minWidth: 960,
    minHeight: 600,
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
  window.once('ready-to-show', () => window.show());
  void window.loadURL(PANEL_ADDRESS);
  return window;
}
