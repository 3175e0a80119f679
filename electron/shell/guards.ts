/**
 * What no page may do here, whatever it contains. Numbers are those of the
 * security checklist of the Electron documentation.
 */
import { type App, dialog, type Session, session } from 'electron';
import { isPanelAddress, PANEL_ADDRESS } from './address.ts';

/**
 * Checklist 4: every page in the sandbox, and no start without one. Launchers of single-file packages add the switch where
 * the system does not let programs make a sandbox of their own. False when the app has to end.
 */
export function guardSandbox(app: App): boolean {
  app.enableSandbox();
  if (!app.commandLine.hasSwitch('no-sandbox')) return true;
  dialog.showErrorBox(
    'Amberwick did not start',
    'This computer lets no program make a sandbox of its own, and Amberwick shows nothing outside one. ' +
      'Install it from the package for your system instead of this single file: the package sets the sandbox up.',
  );
  app.exit(1);
  return false;
}

/** Checklist 11 to 14: no embedded views, no leaving the panel, no further windows. */
export function guardContents(app: App): void {
  app.on('web-contents-created', (_, contents) => {
    contents.on('will-attach-webview', (event) => event.preventDefault());
    const stay = (event: { readonly url: string; preventDefault(): void }): void => {
      if (!isPanelAddress(event.url)) event.preventDefault();
    };
    contents.on('will-navigate', stay);
    contents.on('will-redirect', stay);
    contents.on('will-frame-navigate', stay);
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
}

/** Checklist 5: permissions are granted unless a handler refuses. The panel needs none. */
export function guardPermissions(guarded: Session = session.defaultSession): void {
  guarded.setPermissionRequestHandler((_, __, answer) => answer(false));
  guarded.setPermissionCheckHandler(() => false);
  guarded.setDevicePermissionHandler(() => false);
}

/** The panel saves what it made itself, through the system's dialog; nothing is fetched from elsewhere. */
export function guardSaving(guarded: Session = session.defaultSession): void {
  guarded.on('will-download', (event, item) => {
    if (!item.getURL().startsWith(`blob:${PANEL_ADDRESS}`)) event.preventDefault();
  });
}
