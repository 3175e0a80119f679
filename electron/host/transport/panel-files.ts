/**
 * The built panel as a closed list of files. A request names an entry of the
 * list or nothing: no path of a request ever reaches the file system.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';

export interface PanelFile {
  readonly type: string;
  readonly body: Buffer;
}

/** URL path, such as `/assets/index.js`, to file; `/` is the page. */
export type PanelFiles = ReadonlyMap<string, PanelFile>;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
};

export type PanelResult =
  | { readonly ok: true; readonly files: PanelFiles }
  | { readonly ok: false; readonly error: string };

/** Reads the folder that the panel was built into. Files of unknown kinds (source maps) are left out. */
export function readPanel(folder: string): PanelResult {
  const files = new Map<string, PanelFile>();
  try {
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      const type = TYPES[extname(entry.name)];
      if (!entry.isFile() || !type) continue;
      const file = join(entry.parentPath, entry.name);
      files.set(`/${relative(folder, file).split(sep).join('/')}`, { type, body: readFileSync(file) });
    }
  } catch (error) {
    return { ok: false, error: (error as Error).message };
  }
  const page = files.get('/index.html');
  if (!page) return { ok: false, error: `there is no index.html in ${folder}` };
  files.set('/', page);
  return { ok: true, files };
}
