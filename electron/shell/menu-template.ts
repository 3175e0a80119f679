/** The menus that the panel names, as a menu of the system: in the order and with the extras that each platform expects. */
import type { MenuItemConstructorOptions } from 'electron';
import type { Menus } from '../../shared/workbench/calls/shell.ts';

export interface MenuSurroundings {
  readonly platform: NodeJS.Platform;
  readonly appName: string;
  /** A command was chosen by pointer or menu key. */
  choose(id: string): void;
  /** Undo or redo was pressed while the keyboard was in a text. */
  editText(which: 'undo' | 'redo'): void;
}

type Item = Menus[number]['items'][number];
type Template = MenuItemConstructorOptions[];

const LINE: MenuItemConstructorOptions = { type: 'separator' };
/** The command that tells what this program is; macOS has it in the menu of the app. */
const ABOUT = 'about';
/** The panel leaves these keys to a text field that has the keyboard. */
const OF_TEXTS: readonly string[] = ['undo', 'redo'];
const TITLES = ['File', 'Edit', 'View', 'Help'];

/** Before the panel has named its menus there are those of the system alone. */
export function menuTemplate(menus: Menus, around: MenuSurroundings): Template {
  const isMac = around.platform === 'darwin';
  const missing = TITLES.filter((title) => !menus.some((menu) => menu.title === title));
  const all = [...menus, ...missing.map((title) => ({ title, items: [] }))].sort((a, b) => order(a.title, b.title));
  const made = all.map(({ title, items }): MenuItemConstructorOptions => {
    const own = items.filter((item) => !isMac || title !== 'Help' || item === 'line' || item.id !== ABOUT);
    const submenu = joined(
      tidy(own).map((item) => itemOf(item, around)),
      extras(title, isMac),
    );
    return {
      label: isMac ? plain(title) : `&${plain(title)}`,
      submenu,
      ...(title === 'Help' ? { role: 'help' as const } : {}),
    };
  });
  if (!isMac) return made.filter(({ submenu }) => (submenu as Template).length > 0);
  const about = all.flatMap(({ items }) => items).find((item) => item !== 'line' && item.id === ABOUT);
  const help = made.pop();
  return [appMenu(about, around), ...made, { role: 'windowMenu' }, ...(help ? [help] : [])];
}

/** Help stands last everywhere, the first three first; between them the panel's own order. */
function order(a: string, b: string): number {
  const place = (title: string): number =>
    title === 'Help' ? 99 : TITLES.includes(title) ? TITLES.indexOf(title) : 50;
  return place(a) - place(b);
}

function appMenu(about: Item | undefined, around: MenuSurroundings): MenuItemConstructorOptions {
  const first: MenuItemConstructorOptions = about
    ? { ...itemOf(about, around), label: `About ${around.appName}` }
    : { role: 'about' };
  const submenu: Template = [
    ...[first, LINE, { role: 'services' as const }],
    ...[LINE, { role: 'hide' as const }, { role: 'hideOthers' as const }, { role: 'unhide' as const }],
    ...[LINE, { role: 'quit' as const }],
  ];
  return { label: around.appName, submenu };
}

/** What the system does itself in a menu of this name. */
function extras(title: string, isMac: boolean): Template {
  if (title === 'File') return isMac ? [{ role: 'close' }] : [{ role: 'quit' }];
  // Of texts that are being typed; undo and redo are the panel's.
  if (title === 'Edit') return [{ role: 'cut' }, { role: 'copy' }, { role: 'paste' }, { role: 'selectAll' }];
  if (title !== 'View') return [];
  return [{ role: 'resetZoom' }, { role: 'zoomIn' }, { role: 'zoomOut' }, LINE, { role: 'togglefullscreen' }];
}

function joined(own: Template, system: Template): Template {
  return own.length > 0 && system.length > 0 ? [...own, LINE, ...system] : [...own, ...system];
}

/** No line at an end, none after another. */
function tidy(items: readonly Item[]): Item[] {
  const kept = items.filter((item, at) => item !== 'line' || (at > 0 && items[at - 1] !== 'line'));
  return kept.at(-1) === 'line' ? kept.slice(0, -1) : kept;
}

function itemOf(item: Item, around: MenuSurroundings): MenuItemConstructorOptions {
  if (item === 'line') return LINE;
  const { id, label, shortcut, enabled, checked } = item;
  const key = shortcut === null ? null : keyOf(shortcut, around.platform);
  return {
    id,
    label: shortcut === null || key ? plain(label) : `${plain(label)} (${plain(shortcut)})`,
    enabled,
    ...(checked === undefined ? {} : { type: 'checkbox' as const, checked }),
    ...key,
    click: (_item, _window, event) => {
      if (event.triggeredByAccelerator && OF_TEXTS.includes(id)) around.editText(id as 'undo' | 'redo');
      else around.choose(id);
    },
  };
}

/**
 * The key as the system writes it. The panel itself listens to keys: it knows whether a text is being typed. So the
 * menu only shows them, but on macOS, where a shown key is always a live one: there only those that write no
 * character. Null: to be shown in the label.
 */
function keyOf(
  shortcut: string,
  platform: NodeJS.Platform,
): Pick<MenuItemConstructorOptions, 'accelerator' | 'registerAccelerator'> | null {
  const parts = /^(Ctrl\+)?(Shift\+)?([A-Z0-9]|F\d{1,2}|[,./[\]])$/.exec(shortcut);
  if (!parts) return null;
  const accelerator = `${parts[1] ? 'CmdOrCtrl+' : ''}${parts[2] ?? ''}${parts[3]}`;
  if (platform !== 'darwin') return { accelerator, registerAccelerator: false };
  return parts[1] || /^F\d/.test(parts[3] ?? '') ? { accelerator } : null;
}

/** A single ampersand would underline the next letter; a tab would start the column of keys. */
function plain(label: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are meant
  return label.replace(/[\u0000-\u001f\u007f]+/g, ' ').replaceAll('&', '&&');
}
