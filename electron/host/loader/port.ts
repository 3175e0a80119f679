/** A serial port as a boot loader needs it: at the loader's rate, with the board's reset behind the modem lines. */
import { SerialPort } from 'serialport';
import { explainOpening } from '../ports.ts';
import { StreamEnds } from '../stream.ts';
import type { LoaderLine, OpenedLoader } from './line.ts';

export interface LoaderPortOptions {
  /** Resets the board in the place of the modem lines, which pseudo-terminals do not have; false when it could not. */
  readonly pulse?: () => Promise<boolean>;
}

/** How long the capacitor at the reset pin gets to discharge before the edge that resets, ms (common practice, no source). */
const RELEASE_MS = 250;
/** From the edge until the loader listens, ms (common practice, no source). */
const SETTLE_MS = 100;

/** Opens a serial device for a boot loader. Most boards are reset by this already. Never throws. */
export async function openLoaderPort(
  path: string,
  baud: number,
  options: LoaderPortOptions = {},
): Promise<OpenedLoader> {
  const port = new SerialPort({ path, baudRate: baud, autoOpen: false });
  const failure = await new Promise<Error | null>((resolve) => port.open((error) => resolve(error)));
  if (!failure) return { ok: true, line: new LoaderPort(port, options.pulse) };
  return { ok: false, error: await explainOpening(path, failure.message) };
}

class LoaderPort implements LoaderLine {
  private readonly port: SerialPort;
  private readonly pulse: () => Promise<boolean>;
  private readonly ends = new StreamEnds();

  constructor(port: SerialPort, pulse?: () => Promise<boolean>) {
    this.port = port;
    this.pulse = pulse ?? (() => pulseModemLines(port));
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

  async pulseReset(): Promise<boolean> {
    if (this.ends.ended || !this.port.isOpen) return false;
    const isPulsed = await this.pulse();
    // What the program said until now is no answer of the loader.
    if (isPulsed && this.port.isOpen) await done((told) => this.port.flush(told));
    return isPulsed;
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

/**
 * Released, briefly asserted, released: an edge for a board whose capacitor makes a pulse of it, and no lasting reset for
 * one that is wired straight through. Each `set` writes all flags, and those not named become true.
 */
async function pulseModemLines(port: SerialPort): Promise<boolean> {
  const set = (on: boolean) => done((told) => port.set({ dtr: on, rts: on }, told));
  if (!(await set(false))) return false;
  await pause(RELEASE_MS);
  if (!(await set(true)) || !(await set(false))) return false;
  await pause(SETTLE_MS);
  return true;
}

/** Whether a call of the library went well. */
function done(call: (told: (error: Error | null | undefined) => void) => void): Promise<boolean> {
  return new Promise((resolve) => call((error) => resolve(!error)));
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
