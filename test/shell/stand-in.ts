/**
 * Stands in for Electron where its binary is not: keeps what the shell sets up
 * and lets a test play the part of pages, senders, displays and dialogs.
 * `living-window.ts` puts a real Chromium page behind a window.
 */
import { EventEmitter } from 'node:events';

type Handler = (...args: never[]) => unknown;

export class StandInContents extends EventEmitter {
  readonly sent: unknown[][] = [];
  readonly edits: string[] = [];
  /** Plays the printer; the window is the one whose page is printed. */
  static printer: (window: StandInWindow, options: Record<string, unknown>) => Promise<Uint8Array> = async () =>
    new Uint8Array();
  openHandler: ((details: { url: string }) => { action: string }) | null = null;
  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }
  send(...message: unknown[]): void {
    this.sent.push(message);
    this.emit('stand-in-sent', message);
  }
  undo(): void {
    this.edits.push('undo');
  }
  redo(): void {
    this.edits.push('redo');
  }
  printToPDF(options: Record<string, unknown>): Promise<Uint8Array> {
    const window = StandInWindow.all.find((it) => it.webContents === this);
    if (!window) throw new Error('no window');
    return StandInContents.printer(window, options);
  }
}

export interface StandInBounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export class StandInWindow extends EventEmitter {
  static readonly all: StandInWindow[] = [];
  readonly webContents = new StandInContents();
  readonly options: Partial<StandInBounds> & { webPreferences: Record<string, unknown>; show?: boolean };
  bounds: StandInBounds;
  address = '';
  shown = false;
  focused = 0;
  destroyed = false;
  maximised = false;
  minimised = false;
  fullScreen = false;
  constructor(options: StandInWindow['options']) {
    super();
    this.options = options;
    const { x = 0, y = 0, width = 800, height = 600 } = options;
    this.bounds = { x, y, width, height };
    StandInWindow.all.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(address: string): Promise<void> {
    this.address = address;
  }
  show(): void {
    this.shown = true;
  }
  focus(): void {
    this.focused += 1;
  }
  maximize(): void {
    this.maximised = true;
  }
  restore(): void {
    this.minimised = false;
  }
  setFullScreen(on: boolean): void {
    this.fullScreen = on;
  }
  isMaximized(): boolean {
    return this.maximised;
  }
  isMinimized(): boolean {
    return this.minimised;
  }
  isFullScreen(): boolean {
    return this.fullScreen;
  }
  getNormalBounds(): StandInBounds {
    return this.bounds;
  }
  isDestroyed(): boolean {
    return this.destroyed;
  }
  destroy(): void {
    this.destroyed = true;
  }
}

class StandInApp extends EventEmitter {
  path = '';
  ready = false;
  isPackaged = false;
  isFirst = true;
  sandboxed: 'never' | 'before ready' | 'after ready' = 'never';
  /** Switches of the command line. */
  readonly switches = new Set<string>();
  readonly commandLine = { hasSwitch: (name: string): boolean => this.switches.has(name) };
  quits = 0;
  exitCode: number | null = null;
  requestSingleInstanceLock(): boolean {
    return this.isFirst;
  }
  enableSandbox(): void {
    this.sandboxed = this.ready ? 'after ready' : 'before ready';
  }
  async whenReady(): Promise<void> {
    this.ready = true;
  }
  getAppPath(): string {
    return this.path;
  }
  getName(): string {
    return 'Amberwick';
  }
  getVersion(): string {
    return '1.2.3';
  }
  quit(): void {
    this.quits += 1;
  }
  exit(code: number): void {
    this.exitCode = code;
  }
}

export const app = new StandInApp();
export const BrowserWindow = StandInWindow;

export const screen = {
  /** The first one is the primary display. */
  displays: [{ id: 1, workArea: { x: 0, y: 0, width: 1920, height: 1040 } }],
  getPrimaryDisplay: () => screen.displays[0],
  getAllDisplays: () => [...screen.displays].reverse(),
};

export type ProtocolHandler = (request: Request) => Response;

export const protocol = {
  schemes: [] as { scheme: string; privileges: Record<string, boolean> }[],
  registeredBeforeReady: false,
  handlers: new Map<string, ProtocolHandler>(),
  registerSchemesAsPrivileged(schemes: { scheme: string; privileges: Record<string, boolean> }[]): void {
    protocol.schemes.push(...schemes);
    protocol.registeredBeforeReady = !app.ready;
  },
  handle(scheme: string, handler: ProtocolHandler): void {
    protocol.handlers.set(scheme, handler);
  },
};

export class StandInSession extends EventEmitter {
  readonly options: unknown;
  request: Handler | null = null;
  check: Handler | null = null;
  device: Handler | null = null;
  readonly protocol = {
    handlers: new Map<string, ProtocolHandler>(),
    handle: (scheme: string, handler: ProtocolHandler): void => {
      this.protocol.handlers.set(scheme, handler);
    },
  };
  constructor(options: unknown = null) {
    super();
    this.options = options;
  }
  setPermissionRequestHandler(handler: Handler): void {
    this.request = handler;
  }
  setPermissionCheckHandler(handler: Handler): void {
    this.check = handler;
  }
  setDevicePermissionHandler(handler: Handler): void {
    this.device = handler;
  }
}

export const session = {
  defaultSession: new StandInSession(),
  partitions: new Map<string, StandInSession>(),
  fromPartition(name: string, options: unknown): StandInSession {
    const known = session.partitions.get(name) ?? new StandInSession(options);
    session.partitions.set(name, known);
    return known;
  },
};

export const ipcMain = {
  handlers: new Map<string, (event: unknown, ...args: unknown[]) => unknown>(),
  handle(channel: string, handler: (event: unknown, ...args: unknown[]) => unknown): void {
    ipcMain.handlers.set(channel, handler);
  },
};

/** The renderer's side: `invoke` goes where a test says. */
export const ipcRenderer = Object.assign(new EventEmitter(), {
  invoke: async (..._: unknown[]): Promise<unknown> => undefined,
});

export const contextBridge = {
  exposed: new Map<string, unknown>(),
  exposeInMainWorld(name: string, value: unknown): void {
    contextBridge.exposed.set(name, value);
  },
};

export interface StandInMenuItem {
  readonly id?: string;
  readonly label?: string;
  readonly role?: string;
  readonly type?: string;
  readonly enabled?: boolean;
  readonly checked?: boolean;
  readonly accelerator?: string;
  readonly registerAccelerator?: boolean;
  readonly submenu?: readonly StandInMenuItem[];
  readonly click?: (item: unknown, window: unknown, event: { triggeredByAccelerator?: boolean }) => void;
}

export const Menu = {
  shown: null as readonly StandInMenuItem[] | null,
  buildFromTemplate: (template: readonly StandInMenuItem[]) => template,
  setApplicationMenu(menu: readonly StandInMenuItem[] | null): void {
    Menu.shown = menu;
  },
};

export const dialog = {
  /** Boxes that were shown, as text. */
  shown: [] as string[],
  /** What was asked for, and what the person answers: paths, or null for thinking better of it. */
  asked: [] as { readonly title?: string; readonly defaultPath?: string; readonly properties?: readonly string[] }[],
  answer: null as string | null,
  showErrorBox(title: string, text: string): void {
    dialog.shown.push(`${title}: ${text}`);
  },
  async showMessageBox(...args: unknown[]): Promise<{ response: number }> {
    const { message, detail } = args.at(-1) as { message: string; detail: string };
    dialog.shown.push(`${message} ${detail}`);
    return { response: 0 };
  },
  async showOpenDialog(...args: unknown[]): Promise<{ canceled: boolean; filePaths: string[] }> {
    dialog.asked.push(args.at(-1) as object);
    return { canceled: dialog.answer === null, filePaths: dialog.answer === null ? [] : [dialog.answer] };
  },
  async showSaveDialog(...args: unknown[]): Promise<{ canceled: boolean; filePath: string }> {
    dialog.asked.push(args.at(-1) as object);
    return { canceled: dialog.answer === null, filePath: dialog.answer ?? '' };
  },
};

/** Opens something outside the app: nothing in the shell may. */
export const shell = {
  opened: [] as string[],
  async openExternal(address: string): Promise<void> {
    shell.opened.push(address);
  },
  async openPath(path: string): Promise<string> {
    shell.opened.push(path);
    return '';
  },
};
