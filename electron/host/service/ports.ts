/** Where boards can be reached: the serial ports of the computer and the virtual boards, behind one interface. */

import type { OpenedLoader } from '../loader/line.ts';
import { openLoaderPort } from '../loader/port.ts';
import { type FoundPort, listPorts, type OpenError, openPort } from '../ports.ts';
import { presentPorts } from '../serial/present.ts';
import type { ByteStream } from '../stream.ts';

/** `off`: a virtual board that is switched off; `stopped`: one that cannot run. */
export type OpenProblem = OpenError | { readonly kind: 'off' | 'stopped'; readonly detail: string };

export type Opened =
  | { readonly ok: true; readonly stream: ByteStream }
  | { readonly ok: false; readonly error: OpenProblem };

/** The serial ports; a test brings its own. */
export interface SerialPorts {
  list(): Promise<readonly FoundPort[]>;
  open(path: string): Promise<Opened>;
  /** For a boot loader: at its own rate. Absent where nothing can be written this way. */
  openLoader?(path: string, baud: number): Promise<OpenedLoader>;
  /**
   * Paths of the devices that are there now; cheap enough to ask twice a second. `watched` are asked for by name, as
   * they may be none of the usual ones. Rejects where the system does not tell.
   */
  present?(watched: readonly string[]): Promise<readonly string[]>;
}

export const systemPorts: SerialPorts = {
  list: async () => (await listPorts()).filter((port) => !port.virtual),
  open: openPort,
  openLoader: openLoaderPort,
  present: presentPorts,
};
