/** Whether an Electron window can be opened here, and with which program. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Computer {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly isRoot: boolean;
}

export type WindowProgram =
  | { readonly ok: true; readonly path: string }
  /** `why` continues "No window, for". */
  | { readonly ok: false; readonly why: string };

/** Fetching the program takes a minute on a slow line; offline it fails at once. */
const FETCH_PATIENCE_MS = 180_000;

export function hasDisplay({ platform, env }: Pick<Computer, 'platform' | 'env'>): boolean {
  if (platform === 'win32' || platform === 'darwin') return true;
  return Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

/** Looks for Electron's program, and fetches it where it is missing. */
export function findWindowProgram(root: string, computer: Computer, fetch = fetchProgram): WindowProgram {
  if (!hasDisplay(computer)) return { ok: false, why: 'this computer has no display' };
  // As root Chromium runs only without its sandbox, and the panel is not to run without it.
  if (computer.isRoot && computer.platform === 'linux') return { ok: false, why: 'the sandbox cannot work for root' };
  const folder = join(root, 'node_modules', 'electron');
  if (!existsSync(join(folder, 'install.js'))) return { ok: false, why: 'Electron is not installed' };
  const found = programIn(folder) ?? (fetch(folder) ? programIn(folder) : null);
  return found === null
    ? { ok: false, why: "Electron's program is not here and could not be fetched" }
    : { ok: true, path: found };
}

/** Electron's installer writes the name of the program into `path.txt` as its last step. */
function programIn(folder: string): string | null {
  try {
    const path = join(folder, 'dist', readFileSync(join(folder, 'path.txt'), 'utf8').trim());
    return existsSync(path) ? path : null;
  } catch {
    return null;
  }
}

function fetchProgram(folder: string): boolean {
  console.log('Fetching the Electron program ...');
  const run = spawnSync(process.execPath, [join(folder, 'install.js')], {
    stdio: 'ignore',
    timeout: FETCH_PATIENCE_MS,
  });
  return run.status === 0;
}
