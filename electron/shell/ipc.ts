/** The preload bridge's other end: calls in, events out, for our own page only. */
import { type BrowserWindow, type IpcMainInvokeEvent, ipcMain } from 'electron';
import { problem } from '../../shared/workbench/problems.ts';
import { answerCall, type Handlers, type Telling } from '../../shared/workbench/serve.ts';
import { isPanelAddress } from './address.ts';
import { CALL_CHANNEL, EVENT_CHANNEL } from './channels.ts';

/** Checklist 17: the sender has to be the panel itself, in the main frame of the window. */
export function isPanel(event: Pick<IpcMainInvokeEvent, 'sender' | 'senderFrame'>, window: BrowserWindow): boolean {
  const frame = event.senderFrame;
  if (window.isDestroyed() || frame === null) return false;
  return event.sender === window.webContents && frame.parent === null && isPanelAddress(frame.url);
}

/** `window` gives the window of the moment, null when there is none. */
export function serveWindow(window: () => BrowserWindow | null, handlers: Handlers, telling: Telling): void {
  ipcMain.handle(CALL_CHANNEL, (event, name: unknown, args: unknown) => {
    const current = window();
    if (!current || !isPanel(event, current)) return problem('badRequest', {});
    return answerCall(handlers, name, args);
  });
  telling((name, data) => {
    const current = window();
    if (current && !current.isDestroyed()) current.webContents.send(EVENT_CHANNEL, name, data);
  });
}
