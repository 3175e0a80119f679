/** Where boards can be reached: the serial ports of the computer and the virtual boards, behind one interface. */
import { type FoundPort, listPorts, type OpenError, openPort } from '../ports.ts';
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
}

export const systemPorts: SerialPorts = {
  list: async () => (await listPorts()).filter((port) => !port.virtual),
  open: openPort,
};
