/** The way to a boot loader: a byte stream at the loader's rate, with the board's reset line in hand. */
import type { OpenProblem } from '../service/ports.ts';
import type { ByteStream } from '../stream.ts';

export interface LoaderLine extends ByteStream {
  /**
   * Resets the board by the port's modem lines, so that its boot loader listens. False where the device has no such
   * lines; then opening it or the board's reset button has to do.
   */
  pulseReset(): Promise<boolean>;
}

export type OpenedLoader =
  | { readonly ok: true; readonly line: LoaderLine }
  | { readonly ok: false; readonly error: OpenProblem };
