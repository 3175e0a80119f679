/** The menu bar of the system: shows what the panel names, and tells it what was chosen. */
import { app, type BrowserWindow, Menu } from 'electron';
import type { Menus } from '../../shared/workbench/calls/shell.ts';
import type { Handlers } from '../../shared/workbench/serve.ts';
import { EVENT_CHANNEL } from './channels.ts';
import { menuTemplate } from './menu-template.ts';

type Calls = Pick<Handlers, 'setMenus'>;

/** Sets the first menus, and gives the call by which the panel changes them. */
export function createMenus(window: () => BrowserWindow | null): Calls {
  const show = (menus: Menus): void => {
    const template = menuTemplate(menus, {
      platform: process.platform,
      appName: app.getName(),
      choose: (id) => {
        const current = window();
        if (current && !current.isDestroyed()) current.webContents.send(EVENT_CHANNEL, 'command', { id });
      },
      editText: (which) => window()?.webContents[which](),
    });
    Menu.setApplicationMenu(Menu.buildFromTemplate(template));
  };
  show([]);
  return {
    setMenus: ({ menus }) => {
      show(menus);
      return { ok: true, value: null };
    },
  };
}
