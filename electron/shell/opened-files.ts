/** Layout files that the system hands over: double-clicked, dropped on the icon, or named when the app is started. */
import { isAbsolute, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { App } from 'electron';

/** By their names; whether they are layouts is found when they are opened. */
const LAYOUT = /\.(amberwick|json)$/i;

/**
 * The last layout file among the arguments of a start, or null. File managers give paths or `file:` addresses;
 * switches of Chromium are among them. `folder` is where relative ones are counted from.
 */
export function layoutAmong(args: readonly string[], folder: string): string | null {
  const named = args.filter((arg) => !arg.startsWith('-')).map((arg) => pathOf(arg, folder));
  return named.findLast((path) => path !== null && LAYOUT.test(path)) ?? null;
}

function pathOf(arg: string, folder: string): string | null {
  if (!/^file:/i.test(arg)) return isAbsolute(arg) ? arg : join(folder, arg);
  try {
    return fileURLToPath(arg);
  } catch {
    // On another computer, or no address at all.
    return null;
  }
}

/** Keeps what comes before anybody can open it; the newest only, as one layout is open at a time. */
export class OpenedFiles {
  private waiting: string | null = null;
  private open: ((path: string) => void) | null = null;

  /** To be called before the app is ready: macOS may hand a file over even earlier. */
  listen(app: App): void {
    app.on('open-file', (event, path) => {
      event.preventDefault();
      this.add(path);
    });
  }

  add(path: string | null): void {
    if (path === null) return;
    if (this.open) this.open(path);
    else this.waiting = path;
  }

  /** From now on files are opened at once, a waiting one now. */
  begin(open: (path: string) => void): void {
    this.open = open;
    if (this.waiting !== null) open(this.waiting);
    this.waiting = null;
  }
}
