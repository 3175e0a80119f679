/** Opens the panel: in an Electron window where that can be had, else in the browser. Nobody has to choose. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { serve } from '../../electron/host/serve.ts';
import { buildShell } from '../../electron/shell/build.ts';
import { ensurePanel } from './panel.ts';
import { findWindowProgram, hasDisplay } from './window.ts';

const USAGE = `npm start -- [--browser] [--no-open] [--port N] [--data FOLDER]
                 [--layouts FOLDER] | --terminal [--seconds N]
  --browser   the panel in the browser, even where a window is possible
  --no-open   only print the address
  --port N    port on this computer, else any free one
  --data F    folder for session logs and virtual boards
  --layouts F folder where the panel in the browser lists and saves layouts
  --terminal  the example in the terminal`;

const OPTIONS = {
  browser: { type: 'boolean' },
  'no-open': { type: 'boolean' },
  port: { type: 'string' },
  data: { type: 'string' },
  layouts: { type: 'string' },
} as const;

/** Returns the exit code when the panel has been closed. */
export async function main(args: readonly string[], root: string): Promise<number> {
  const options = read(args);
  const port = Number(options?.port ?? 0);
  if (!options || !Number.isInteger(port) || port < 0 || port > 65_535) {
    console.error(USAGE);
    return 2;
  }
  const panelFolder = join(root, 'dist', 'panel');
  try {
    await ensurePanel(root, panelFolder);
  } catch (error) {
    console.error(`The panel could not be built: ${(error as Error).message}`);
    return 1;
  }
  const computer = { platform: process.platform, env: process.env, isRoot: process.getuid?.() === 0 };
  if (!options.browser) {
    const program = findWindowProgram(root, computer);
    if (program.ok) return openWindow(program.path, root, options.data);
    console.log(`No window, for ${program.why}; the panel is for your browser instead.`);
  }
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const served = await serve({
    version,
    panelFolder,
    port,
    ...(options.data ? { dataFolder: options.data } : {}),
    ...(options.layouts ? { layoutsFolder: resolve(options.layouts) } : {}),
    ...(!options['no-open'] && hasDisplay(computer) ? { open: openBrowser } : {}),
  });
  if (!served.ok) {
    console.error(served.error);
    return 1;
  }
  await asked();
  await served.close();
  return 0;
}

function read(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS }).values;
  } catch {
    return null;
  }
}

async function openWindow(program: string, root: string, data: string | undefined): Promise<number> {
  await buildShell(join(root, 'dist', 'electron', 'shell'));
  const env = data ? { ...process.env, AMBERWICK_DATA: data } : process.env;
  const child = spawn(program, [root], { stdio: 'inherit', env });
  return new Promise((resolve) => {
    child.once('error', () => resolve(1));
    child.once('close', (code) => resolve(code ?? 1));
  });
}

/** Where no browser can be started the printed address is still there. */
function openBrowser(address: string): void {
  const [program, ...args]: [string, ...string[]] =
    process.platform === 'win32'
      ? ['cmd', '/c', 'start', '', address]
      : process.platform === 'darwin'
        ? ['open', address]
        : ['xdg-open', address];
  const child = spawn(program, args, { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}

/** Ctrl-C, or the end asked for by the system. */
function asked(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
}
