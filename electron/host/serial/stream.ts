/** A serial device as a byte stream, opened so that it disturbs the board as little as the system allows. */
import { execFile } from 'node:child_process';
import { SerialPort } from 'serialport';
import { BAUD } from '../../../shared/link/vocabulary.ts';
import { type ByteStream, StreamEnds } from '../stream.ts';
import { explainOpening, type OpenError } from './errors.ts';

export type OpenResult =
  | { readonly ok: true; readonly stream: ByteStream }
  | { readonly ok: false; readonly error: OpenError };

/** Opens a serial device at the rate of the protocol. */
export async function openPort(path: string): Promise<OpenResult> {
  // Windows leaves the modem lines alone with this; the binding for Unix only ever sets the flag.
  const port = new SerialPort({ path, baudRate: BAUD, hupcl: false, autoOpen: false });
  const failure = await new Promise<Error | null>((resolve) => port.open((error) => resolve(error)));
  if (failure) return { ok: false, error: await explainOpening(path, failure.message) };
  await keepLinesUp(path);
  return { ok: true, stream: new SerialStream(port) };
}

/** Longest wait for a program that sets a flag, ms. */
const STTY_PATIENCE_MS = 2000;

/**
 * Unix drops DTR when a port is closed and raises it when it is opened, and that edge resets most boards. With HUPCL
 * cleared DTR stays up after closing, so that the next opening has no edge. The first one after plugging in has. Without
 * effect where it fails: then every opening resets the board, as with any other program.
 */
export function keepLinesUp(path: string): Promise<void> {
  const flag = process.platform === 'linux' ? '-F' : process.platform === 'darwin' ? '-f' : null;
  if (flag === null) return Promise.resolve();
  // Waited for: it opens the device itself, and after our closing that would be an opening with an edge.
  return new Promise((resolve) => {
    execFile('stty', [flag, path, '-hupcl'], { timeout: STTY_PATIENCE_MS }, () => resolve());
  });
}

/** An open port of the library as a byte stream. */
export class SerialStream implements ByteStream {
  protected readonly port: SerialPort;
  protected readonly ends = new StreamEnds();

  constructor(port: SerialPort) {
    this.port = port;
    port.on('data', (bytes: Buffer) => this.ends.data(new Uint8Array(bytes)));
    port.on('close', (cause: Error | null) => this.ends.end(cause ? 'The cable was pulled.' : 'The port was closed.'));
    port.on('error', (error) => {
      this.ends.end(`The port failed: ${error.message}`);
      if (port.isOpen) port.close(() => {});
    });
    // Gone while the flag was being set.
    if (!port.isOpen) this.ends.end('The cable was pulled.');
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
