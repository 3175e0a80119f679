/** The desktop shell: opens one window on the panel and joins it to the host. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app, type BrowserWindow, dialog } from 'electron';
import { dataFolder } from './host/log/data-folder.ts';
import { createHost, type Host } from './host/service/host.ts';
import { readPanel } from './host/transport/panel-files.ts';
import { createDialogs } from './shell/dialogs.ts';
import { guardContents, guardPermissions, guardSandbox, guardSaving } from './shell/guards.ts';
import { serveWindow } from './shell/ipc.ts';
import { createMenus } from './shell/menus.ts';
import { layoutAmong, OpenedFiles } from './shell/opened-files.ts';
import { createPdfPrinter } from './shell/pdf.ts';
import { registerScheme, servePanel } from './shell/protocol.ts';
import { bringForward, openWindow } from './shell/window.ts';

const built = join(app.getAppPath(), 'dist');
const opened = new OpenedFiles();
let window: BrowserWindow | null = null;

// A second start hands its file to the first one and ends.
if (app.requestSingleInstanceLock()) start().catch(stop);
else app.quit();

function stop(error: Error): void {
  dialog.showErrorBox('Amberwick could not start', error.message);
  app.exit(1);
}

async function start(): Promise<void> {
  if (!guardSandbox(app)) return;
  registerScheme();
  guardContents(app);
  opened.listen(app);
  opened.add(layoutAmong(ownArguments(process.argv), process.cwd()));
  app.on('second-instance', (_, args, folder) => {
    opened.add(layoutAmong(ownArguments(args), folder));
    bringForward(window);
  });
  await app.whenReady();
  guardPermissions();
  guardSaving();

  const panel = readPanel(join(built, 'panel'));
  if (!panel.ok) {
    dialog.showErrorBox('Amberwick is not whole', `The panel is missing: ${panel.error}. Install Amberwick again.`);
    app.exit(1);
    return;
  }
  servePanel(panel.files);

  const data = dataFolder({ platform: process.platform, env: process.env, home: homedir() });
  const ofNow = (): BrowserWindow | null => window;
  const dialogs = createDialogs(ofNow);
  const host = createHost({
    shell: 'electron',
    version: app.getVersion(),
    dataFolder: data,
    printer: createPdfPrinter(),
    chooser: dialogs,
    choosePhoto: dialogs.choosePhoto,
  });
  serveWindow(ofNow, { ...host.handlers, ...createMenus(ofNow) }, host.telling);
  closeHostBeforeQuitting(host);
  app.on('window-all-closed', () => app.quit());

  window = openWindow(join(built, 'electron', 'shell', 'preload.cjs'), join(data, 'window.json'));
  window.on('closed', () => {
    window = null;
  });
  await host.start();
  opened.begin(async (path) => {
    const outcome = await host.openPath(path);
    if (!outcome.ok) dialogs.tell(outcome.problem);
  });
}

/** Without the program, and without the folder of the app that stands behind it while developing. */
function ownArguments(args: readonly string[]): readonly string[] {
  return args.slice(app.isPackaged ? 1 : 2);
}

/** The log gets its last line and virtual boards save their memory; then the app goes. */
function closeHostBeforeQuitting(host: Pick<Host, 'close'>): void {
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
