/** Serial ports of this computer: which there are, which are likely boards, opening one. */
import { readFile, stat } from 'node:fs/promises';
import { SerialPort } from 'serialport';
import { BAUD } from '../../shared/link/vocabulary.ts';
import { type ByteStream, StreamEnds } from './stream.ts';

/** Name that stands for the virtual board wherever a port is asked for. */
export const VIRTUAL_PORT = 'virtual';

export interface FoundPort {
  readonly path: string;
  /** For people: maker and id as the system tells them. */
  readonly label: string;
  /** A USB bridge of the kinds that boards carry. */
  readonly likely: boolean;
  readonly virtual: boolean;
}

// USB ids of common bridges and of boards with their own USB chip, as the makers of the chips assigned them.
const BRIDGES = new Set([
  '1a86:7523',
  '1a86:55d4',
  '10c4:ea60',
  '0403:6001',
  '0403:6010',
  '0403:6014',
  '0403:6015',
  '067b:2303',
]);
const BOARD_VENDORS = new Set(['2341', '2a03']);

/** What the serial library knows of a port. */
export interface ListedPort {
  readonly path: string;
  readonly manufacturer?: string | undefined;
  readonly vendorId?: string | undefined;
  readonly productId?: string | undefined;
}

/** Likely boards first, then the others, each by name; the virtual board last. */
export function orderPorts(listed: readonly ListedPort[]): FoundPort[] {
  const found = listed.map((port): FoundPort => {
    const vendor = port.vendorId?.toLowerCase();
    const id = vendor && port.productId ? `${vendor}:${port.productId.toLowerCase()}` : null;
    return {
      path: port.path,
      label: [port.manufacturer, id].filter(Boolean).join(', ') || 'serial port',
      likely: (id !== null && BRIDGES.has(id)) || (vendor !== undefined && BOARD_VENDORS.has(vendor)),
      virtual: false,
    };
  });
  found.sort((a, b) => Number(b.likely) - Number(a.likely) || a.path.localeCompare(b.path, 'en', { numeric: true }));
  return [...found, { path: VIRTUAL_PORT, label: 'virtual board', likely: false, virtual: true }];
}

export async function listPorts(): Promise<FoundPort[]> {
  try {
    return orderPorts(await SerialPort.list());
  } catch {
    // A system without any serial driver refuses to list; there is still the virtual board.
    return orderPorts([]);
  }
}

export interface OpenError {
  readonly kind: 'missing' | 'busy' | 'denied' | 'failed';
  /** For `denied`: the group that may open the device, where the system has groups. */
  readonly group?: string;
  /** The system's own words. */
  readonly detail: string;
}

export type OpenResult =
  | { readonly ok: true; readonly stream: ByteStream }
  | { readonly ok: false; readonly error: OpenError };

/** Opens a serial device at the rate of the protocol. Most boards are reset by this. */
export async function openPort(path: string): Promise<OpenResult> {
  const port = new SerialPort({ path, baudRate: BAUD, autoOpen: false });
  const failure = await new Promise<Error | null>((resolve) => port.open((error) => resolve(error)));
  if (!failure) return { ok: true, stream: new SerialStream(port) };
  return { ok: false, error: await explain(path, failure.message) };
}

/** Which of the four kinds a failure is, by the words that the systems use. */
export function openErrorKind(message: string): OpenError['kind'] {
  if (/cannot lock port|resource busy|EBUSY|access denied|error code 5\b/i.test(message)) return 'busy';
  if (/permission denied|EACCES|EPERM/i.test(message)) return 'denied';
  if (/no such file|ENOENT|ENXIO|ENODEV|file not found|unknown error code 2\b/i.test(message)) return 'missing';
  return 'failed';
}

async function explain(path: string, detail: string): Promise<OpenError> {
  const kind = openErrorKind(detail);
  const group = kind === 'denied' && process.platform !== 'win32' ? await groupOf(path) : null;
  return { kind, detail, ...(group === null ? {} : { group }) };
}

/** Name of the group of a device node; its name differs by distribution. */
async function groupOf(path: string): Promise<string | null> {
  try {
    const { gid } = await stat(path);
    const groups = await readFile('/etc/group', 'utf8').catch(() => '');
    const line = groups.split('\n').find((entry) => entry.split(':')[2] === String(gid));
    return line?.split(':')[0] ?? String(gid);
  } catch {
    return null;
  }
}

class SerialStream implements ByteStream {
  private readonly port: SerialPort;
  private readonly ends = new StreamEnds();

  constructor(port: SerialPort) {
    this.port = port;
    port.on('data', (bytes: Buffer) => this.ends.data(new Uint8Array(bytes)));
    port.on('close', (cause: Error | null) => this.ends.end(cause ? 'The cable was pulled.' : 'The port was closed.'));
    port.on('error', (error) => {
      this.ends.end(`The port failed: ${error.message}`);
      if (port.isOpen) port.close(() => {});
    });
  }

  write(bytes: Uint8Array): void {
    // A write to a closed port would wait in the library and go out after the next opening.
    if (!this.ends.ended && this.port.isOpen) this.port.write(Buffer.from(bytes));
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  close(): Promise<void> {
    return new Promise((resolve) => {
      if (!this.port.isOpen) {
        this.ends.end('The port was closed.');
        resolve();
      } else this.port.close(() => resolve());
    });
  }
}
