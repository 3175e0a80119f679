/** The host for a browser on this machine: everything that `npm start` needs where there is no window. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { servePipe } from '../../shared/workbench/serve.ts';
import { layoutsFolder } from './files/places.ts';
import { dataFolder } from './log/data-folder.ts';
import { createHost } from './service/host.ts';
import type { SerialPorts } from './service/ports.ts';
import type { PinWatch } from './service/virtual-boards.ts';
import { serveBrowser } from './transport/browser.ts';
import { readPanel } from './transport/panel-files.ts';

export interface ServeOptions {
  readonly version: string;
  /** The built panel. */
  readonly panelFolder: string;
  /** Default: the user's data folder. */
  readonly dataFolder?: string;
  /** Where layouts are listed and saved. Default: `Layouts` in a data folder that was given, else the user's own. */
  readonly layoutsFolder?: string;
  /** Default: any free port. */
  readonly port?: number;
  /** Hears the pins of virtual boards. */
  readonly onLevels?: PinWatch;
  /** Default: the serial ports of the computer. */
  readonly serial?: SerialPorts;
  /** Called with the address once it can be opened, such as to start a browser. */
  readonly open?: (address: string) => void;
  /** Default: prints the line. */
  readonly print?: (line: string) => void;
}

export type Served =
  | { readonly ok: true; readonly address: string; readonly close: () => Promise<void> }
  | { readonly ok: false; readonly error: string };

/** Prints one line with the address. The example runs on its virtual boards a moment later. */
export async function serve(options: ServeOptions): Promise<Served> {
  const panel = readPanel(options.panelFolder);
  if (!panel.ok) return { ok: false, error: `The panel has not been built: ${panel.error}.` };
  const host = createHost({
    shell: 'browser',
    version: options.version,
    dataFolder: options.dataFolder ?? dataFolder({ platform: process.platform, env: process.env, home: homedir() }),
    layoutsFolder: options.layoutsFolder ?? layoutsOf(options.dataFolder),
    ...(options.onLevels ? { onLevels: options.onLevels } : {}),
    ...(options.serial ? { serial: options.serial } : {}),
  });
  try {
    const browser = await serveBrowser({
      files: panel.files,
      port: options.port ?? 0,
      onPanel: (pipe) => servePipe(pipe, host.handlers, host.telling),
    });
    (options.print ?? console.log)(`Amberwick runs at ${browser.address}`);
    options.open?.(browser.address);
    void host.start();
    return {
      ok: true,
      address: browser.address,
      close: async () => {
        await browser.close();
        await host.close();
      },
    };
  } catch (error) {
    await host.close();
    return { ok: false, error: `The port could not be opened: ${(error as Error).message}.` };
  }
}

/** Somebody who puts the data aside wants the layouts there, too. */
function layoutsOf(data: string | undefined): string {
  const { env } = process;
  if (data !== undefined && !env.AMBERWICK_LAYOUTS) return join(data, 'Layouts');
  return layoutsFolder({ env, home: homedir() });
}
