/** Writing the shipped firmware through a boot loader: what goes in, what comes of it. */
import type { Chip } from '../../../shared/table/format.ts';
import type { Clock } from '../clock.ts';
import type { Outcome } from '../result.ts';
import type { OpenProblem } from '../service/ports.ts';
import type { OpenedLoader } from './line.ts';

/**
 * Which loader answered: STK500 version 1 (AVR061) at 115,200 or at 57,600 baud, on an ATmega328P; STK500
 * version 2 (AVR068) at 115,200 baud, on an ATmega2560.
 */
export type LoaderKind = 'v1-115200' | 'v1-57600' | 'v2-115200';

/** A chip by its three signature bytes. */
export interface Silicon {
  /** As its data sheet calls it. */
  readonly name: string;
  /** Six upper-case hexadecimal digits. */
  readonly signature: string;
  /** Which of our images runs on it. */
  readonly chip: Chip;
  /** Most current through its supply pins, mA, by its data sheet. */
  readonly totalMilliamps: number;
}

export type WriteStage = 'reset' | 'press' | 'write' | 'verify';

export interface WriteOptions {
  /** Opens the port at so many baud. The job closes what it opened. */
  readonly open: (baud: number) => Promise<OpenedLoader>;
  readonly clock: Clock;
  /** What the layout says; null takes whichever chip answers. */
  readonly chip: Chip | null;
  /** Contents of the flash of our image for a chip, from address 0; null when it cannot be read. */
  readonly image: (chip: Chip) => Uint8Array | null;
  /** Tried first: the loader that this board had last time. */
  readonly likely?: LoaderKind;
  /** `done` of `total` bytes; both 0 in stages without a measure. */
  readonly onStage?: (stage: WriteStage, done: number, total: number) => void;
  readonly signal?: AbortSignal;
}

export interface Written {
  readonly silicon: Silicon;
  readonly loader: LoaderKind;
  readonly bytes: number;
}

/** What the board is left as: `untouched` runs what it ran; `empty` is dark and waits in its boot loader for another try. */
export type LeftAs = 'untouched' | 'empty';

export type WriteError =
  /** The port could not be opened. */
  | { readonly kind: 'open'; readonly error: OpenProblem }
  /** No boot loader answered at any rate. `pulsed` is false where the port could not reset the board. */
  | { readonly kind: 'noLoader'; readonly pulsed: boolean; readonly heardBytes: boolean }
  /** The chip is a known one, but not the wanted one. */
  | { readonly kind: 'wrongChip'; readonly found: Silicon }
  /** No chip that we have an image for; `signature` as six hexadecimal digits. */
  | { readonly kind: 'unknownChip'; readonly signature: string }
  | { readonly kind: 'noImage'; readonly chip: Chip }
  /** The image does not fit beside this loader; sizes in bytes. */
  | { readonly kind: 'tooLarge'; readonly bytes: number; readonly room: number }
  /** The loader said no, or something that is not in its protocol. */
  | { readonly kind: 'refused'; readonly at: number; readonly leftAs: LeftAs; readonly detail: string }
  /** Read back otherwise than written, at a byte address. */
  | { readonly kind: 'differs'; readonly at: number; readonly leftAs: LeftAs }
  /** The loader stopped answering. */
  | { readonly kind: 'silent'; readonly leftAs: LeftAs }
  /** The port went away. */
  | { readonly kind: 'ended'; readonly cause: string; readonly leftAs: LeftAs }
  | { readonly kind: 'cancelled'; readonly leftAs: LeftAs };

/** `writeFirmware(options)` in `write.ts`. */
export type WriteFirmware = (options: WriteOptions) => Promise<Outcome<Written, WriteError>>;
