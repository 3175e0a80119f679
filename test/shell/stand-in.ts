/**
 * Stands in for Electron where its binary is not: keeps what the shell sets up
 * and lets a test play the part of pages and senders.
 */
import { EventEmitter } from 'node:events';

type Handler = (...args: never[]) => unknown;

export class StandInContents extends EventEmitter {
  readonly sent: unknown[][] = [];
  /** Plays the printer; the window is the one whose page is printed. */
  static printer: (window: StandInWindow, options: Record<string, unknown>) => Promise<Uint8Array> = async () =>
    new Uint8Array();
  openHandler: ((details: { url: string }) => { action: string }) | null = null;
  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }
  send(...message: unknown[]): void {
    this.sent.push(message);
  }
  printToPDF(options: Record<string, unknown>): Promise<Uint8Array> {
    const window = StandInWindow.all.find((it) => it.webContents === this);
    if (!window) throw new Error('no window');
    return StandInContents.printer(window, options);
  }
}

export class StandInWindow extends EventEmitter {
  static readonly all: StandInWindow[] = [];
  readonly webContents = new StandInContents();
  readonly options: { webPreferences: Record<string, unknown>; show?: boolean };
  address = '';
  shown = false;
  destroyed = false;
  constructor(options: StandInWindow['options']) {
    super();
    this.options = options;
    StandInWindow.all.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(address: string): Promise<void> {
    this.address = address;
  }
  show(): void {
    this.shown = true;
  }
  focus(): void {}
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
  quits = 0;
  exitCode: number | null = null;
  requestSingleInstanceLock(): boolean {
    return true;
  }
  async whenReady(): Promise<void> {
    this.ready = true;
  }
  getAppPath(): string {
    return this.path;
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

export const protocol = {
  schemes: [] as { scheme: string; privileges: Record<string, boolean> }[],
  registeredBeforeReady: false,
  handlers: new Map<string, (request: Request) => Response>(),
  registerSchemesAsPrivileged(schemes: { scheme: string; privileges: Record<string, boolean> }[]): void {
    protocol.schemes.push(...schemes);
    protocol.registeredBeforeReady = !app.ready;
  },
  handle(scheme: string, handler: (request: Request) => Response): void {
    protocol.handlers.set(scheme, handler);
  },
};

export class StandInSession {
  readonly options: unknown;
  request: Handler | null = null;
  check: Handler | null = null;
  device: Handler | null = null;
  readonly protocol = {
    handlers: new Map<string, (request: Request) => Response>(),
    handle: (scheme: string, handler: (request: Request) => Response): void => {
      this.protocol.handlers.set(scheme, handler);
    },
  };
  constructor(options: unknown = null) {
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

export const Menu = { setApplicationMenu(): void {} };
export const dialog = {
  shown: [] as string[],
  showErrorBox(title: string, text: string): void {
    dialog.shown.push(`${title}: ${text}`);
  },
};
