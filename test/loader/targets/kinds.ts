/** The boot loaders of the tests by their names, each with the chip that it is found on. */
import type { Clock } from '../../../electron/host/clock.ts';
import type { LoaderKind } from '../../../electron/host/loader/types.ts';
import type { Chip } from '../../../shared/table/format.ts';
import { Flash } from './flash.ts';
import type { LoaderTarget, Surroundings } from './loader.ts';
import { V1_FLASH_BYTES, V1_OLD, V1_PAGE_BYTES, V1_SMALL, V1Target } from './v1.ts';
import { V2_FLASH_BYTES, V2_PAGE_BYTES, V2_USABLE, V2Target } from './v2.ts';

// Data sheets of the chips (facts: signatures); the last is none that there is an image for.
export const SIGNATURES = {
  atmega328p: '1E950F',
  atmega328pb: '1E9516',
  atmega2560: '1E9801',
  unknown: '1E9406',
} as const;

export type Target = LoaderTarget & {
  /** How often the EEPROM was asked for; it never should be. */
  readonly eepromCommands: number;
  /** An empty flash runs on into this loader, or it never leaves; else the board is deaf until a reset. */
  readonly listensWhenBlank: boolean;
  /** The program finds no reset cause. */
  readonly clearsCause: boolean;
};

export interface KindOptions extends Pick<Surroundings, 'send' | 'startProgram' | 'carriedOut'> {
  readonly clock: Clock;
  readonly signature?: string;
  readonly flash?: Uint8Array;
  readonly strictSequence?: boolean;
}

export interface Made {
  readonly chip: Chip;
  readonly flash: Flash;
  readonly eepromBytes: number;
  readonly target: Target;
}

export function makeTarget(loader: LoaderKind, options: KindOptions): Made {
  const isV2 = loader === 'v2-115200';
  const kind = loader === 'v1-57600' ? V1_OLD : V1_SMALL;
  const flash = isV2
    ? new Flash(V2_FLASH_BYTES, V2_PAGE_BYTES, V2_USABLE, options.flash)
    : new Flash(V1_FLASH_BYTES, V1_PAGE_BYTES, kind.usable, options.flash);
  // The loader's own code is not here; a program that runs into it goes round in one place (rjmp .-2).
  for (let at = flash.loaderStart; at < flash.bytes.length; at += 2) flash.bytes.set([0xff, 0xcf], at);
  const around: Surroundings = {
    clock: options.clock,
    flash,
    signature: bytesOf(options.signature ?? (isV2 ? SIGNATURES.atmega2560 : SIGNATURES.atmega328p)),
    send: options.send,
    startProgram: options.startProgram,
    carriedOut: options.carriedOut,
  };
  const target = isV2 ? new V2Target(around, options) : new V1Target(kind, around);
  return {
    chip: isV2 ? 'atmega2560' : 'atmega328p',
    flash,
    eepromBytes: isV2 ? 4096 : 1024,
    // The newer v1 loader leaves by a watchdog reset and clears the cause; the older two jump (from memory).
    target: Object.assign(target, {
      listensWhenBlank: loader !== 'v1-115200',
      clearsCause: loader === 'v1-115200',
    }),
  };
}

function bytesOf(signature: string): [number, number, number] {
  const value = Number.parseInt(signature, 16);
  return [(value >> 16) & 0xff, (value >> 8) & 0xff, value & 0xff];
}
