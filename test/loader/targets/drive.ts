/** What the proofs against the boot loaders share: small programs with a meaning, and time that passes while something is awaited. */
import type { LoaderKind, WriteError, WriteOptions, Written } from '../../../electron/host/loader/types.ts';
import { writeFirmware } from '../../../electron/host/loader/write.ts';
import type { Outcome } from '../../../electron/host/result.ts';
import { VirtualBoard } from '../../../electron/host/virtual/board.ts';
import { CHIPS } from '../../../electron/host/virtual/chips.ts';
import type { Chip } from '../../../shared/table/format.ts';
import { FakeClock } from '../../host/fake-clock.ts';
import { BareBoard, type BareBoardOptions } from '../bare-board.ts';

export const LOADER_KINDS: readonly LoaderKind[] = ['v1-115200', 'v1-57600', 'v2-115200'];

/** Lets time pass until the promise is settled. */
export async function finish<T>(clock: FakeClock, promise: Promise<T>): Promise<T> {
  let settled = false;
  const done = promise.finally(() => {
    settled = true;
  });
  while (!settled) await clock.advance(4);
  return done;
}

// sbi DDRB,n and sbi DDRD,n make an output of a pin (instruction set manual; DDRB and DDRD are I/O 4 and 10 on both chips).
const DRIVE_B = 0x9a20;
const DRIVE_D = 0x9a50;
/** rjmp to itself. */
const STAY = 0xcfff;
/** cli, wdr, rjmp to the wdr. */
const PARKED = [0x94f8, 0x95a8, 0xcffe];

/**
 * A program of so many pages that drives pin B`number` and stays. Its other pages drive pin D`number`
 * when anything ever runs into them, which is what must not happen. With a `landing` the second page begins with a
 * loop that goes nowhere, for a chip that finds the first one erased.
 */
export function program(chip: Chip, number: number, pages: number, landing = false): Uint8Array {
  const pageBytes = chip === 'atmega2560' ? 256 : 128;
  const words = new Uint16Array((pages * pageBytes) / 2).fill(DRIVE_D + number);
  words.fill(0xffff, 0, pageBytes / 2);
  words.set([DRIVE_B + number, STAY]);
  if (landing && pages > 1) words.set(PARKED, pageBytes / 2);
  for (let page = 1; page < pages; page++) words.set([numbered(page), STAY], ((page + 1) * pageBytes) / 2 - 2);
  return new Uint8Array(words.buffer);
}

/** ldi r16,page: so that no two neighbours are alike. */
function numbered(page: number): number {
  return 0xe000 | ((page & 0xf0) << 4) | (page & 0x0f);
}

export const OLD = 0;
export const NEW = 1;

/** Names of the pins that are outputs when this flash has run for 2 ms from its start. */
export function drivenBy(chip: Chip, flash: Uint8Array): string[] {
  const board = new VirtualBoard({ chip, flash });
  const driven = new Set<number>();
  board.onPin = (pin, level) => {
    if (level !== 'z') driven.add(pin);
  };
  board.power(true);
  board.run(32_000);
  return [...driven].map((pin) => CHIPS[chip].pins[pin] ?? '?');
}

/** What is in the flash: one of the three states that a board may be in, or none of them. */
export function found(board: BareBoard, old: Uint8Array, wanted: Uint8Array): 'old' | 'parked' | 'new' | 'broken' {
  const holds = (bytes: Uint8Array, from = 0): boolean =>
    bytes.every((byte, at) => at < from || board.flash.bytes[at] === byte);
  if (holds(wanted)) return 'new';
  if (holds(old)) return 'old';
  return isDark(board) ? 'parked' : 'broken';
}

/** Runs and drives nothing, by the emulated chip. */
export function isDark(board: BareBoard): boolean {
  return drivenBy(board.chip, board.flash.bytes).length === 0;
}

export interface Bench {
  readonly clock: FakeClock;
  readonly board: BareBoard;
  readonly old: Uint8Array;
  readonly wanted: Uint8Array;
  /** Writes the new program; time passes meanwhile. */
  write(options?: Partial<WriteOptions>): Promise<Outcome<Written, WriteError>>;
}

/** A board that runs the old program, and the new one at hand. */
export function bench(
  loader: LoaderKind,
  pages = 3,
  { landing = false, ...options }: Partial<BareBoardOptions> & { readonly landing?: boolean } = {},
): Bench {
  const clock = new FakeClock();
  const chip: Chip = loader === 'v2-115200' ? 'atmega2560' : 'atmega328p';
  const old = program(chip, OLD, pages + 1, landing);
  const wanted = program(chip, NEW, pages, landing);
  const board = new BareBoard({ loader, clock, flash: old, ...options });
  const write: Bench['write'] = (more = {}) =>
    finish(
      clock,
      writeFirmware({
        open: (baud) => board.openLoader(baud),
        clock,
        chip,
        likely: loader,
        image: () => wanted,
        ...more,
      }),
    );
  return { clock, board, old, wanted, write };
}
