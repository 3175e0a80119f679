/** A serial port as a boot loader needs it: at the loader's rate, with the board's reset behind the modem lines. */
import { SerialPort } from 'serialport';
import { explainOpening } from '../serial/errors.ts';
import { SerialStream } from '../serial/stream.ts';
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

class LoaderPort extends SerialStream implements LoaderLine {
  private readonly pulse: () => Promise<boolean>;

  constructor(port: SerialPort, pulse?: () => Promise<boolean>) {
    super(port);
    this.pulse = pulse ?? (() => pulseModemLines(port));
  }

  async pulseReset(): Promise<boolean> {
    if (this.ends.ended || !this.port.isOpen) return false;
    const isPulsed = await this.pulse();
    // What the program said until now is no answer of the loader.
    if (isPulsed && this.port.isOpen) await done((told) => this.port.flush(told));
    return isPulsed;
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
