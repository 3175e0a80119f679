/** The desktop shell: opens one window on the panel and joins it to the host. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app, type BrowserWindow, dialog, Menu } from 'electron';
import { dataFolder } from './host/log/data-folder.ts';
import { createHost } from './host/service/host.ts';
import { readPanel } from './host/transport/panel-files.ts';
import { guardContents, guardPermissions } from './shell/guards.ts';
import { serveWindow } from './shell/ipc.ts';
import { createPdfPrinter } from './shell/pdf.ts';
import { registerScheme, servePanel } from './shell/protocol.ts';
import { openWindow } from './shell/window.ts';

const built = join(app.getAppPath(), 'dist');
let window: BrowserWindow | null = null;

if (app.requestSingleInstanceLock()) start().catch(stop);
else app.quit();

function stop(error: Error): void {
  dialog.showErrorBox('Amberwick could not start', error.message);
  app.exit(1);
}

async function start(): Promise<void> {
  registerScheme();
  guardContents(app);
  await app.whenReady();
  guardPermissions();
  if (process.platform !== 'darwin') Menu.setApplicationMenu(null);

  const panel = readPanel(join(built, 'panel'));
  if (!panel.ok) {
    dialog.showErrorBox('Amberwick is not whole', `The panel is missing: ${panel.error}. Install Amberwick again.`);
    app.exit(1);
    return;
  }
  servePanel(panel.files);

  const host = createHost({
    shell: 'electron',
    version: app.getVersion(),
    dataFolder: dataFolder({ platform: process.platform, env: process.env, home: homedir() }),
    printer: createPdfPrinter(),
  });
  serveWindow(() => window, host.handlers, host.telling);
  closeHostBeforeQuitting(host);
  app.on('second-instance', () => window?.focus());
  app.on('window-all-closed', () => app.quit());

  window = openWindow(join(built, 'electron', 'shell', 'preload.cjs'));
  window.on('closed', () => {
    window = null;
  });
  await host.start();
}

/** The log gets its last line and virtual boards save their memory; then the app goes. */
function closeHostBeforeQuitting(host: { close(): Promise<void> }): void {
  let closed = false;
  app.on('before-quit', (event) => {
    if (closed) return;
    event.preventDefault();
    void host.close().finally(() => {
      closed = true;
      app.quit();
    });
  });
}
