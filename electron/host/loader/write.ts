/** Writes the shipped firmware through whichever boot loader answers, or asks only who is there. */
import { failed, fine, type Outcome } from '../result.ts';
import { Door } from './door.ts';
import { LOADERS, loadersFor } from './kinds.ts';
import { type Pages, pagesOf } from './pages.ts';
import { siliconOf } from './silicon.ts';
import { Transfer, troubleError } from './transfer.ts';
import type { LoaderKind, Silicon, WriteError, WriteFirmware, WriteOptions } from './types.ts';

/** Who is behind a port. */
export interface Met {
  readonly loader: LoaderKind;
  /** Six upper-case hexadecimal digits. */
  readonly signature: string;
  /** Null for a chip that we have no image for. */
  readonly silicon: Silicon | null;
}

export type AskOptions = Omit<WriteOptions, 'image'>;

/** Nothing is written before the chip is known, its image fits and the loader has answered as it should. */
export const writeFirmware: WriteFirmware = async (options) => {
  const door = new Door(options);
  try {
    const met = await meet(door, options);
    if (!met.ok) return met;
    const { loader } = met.value;
    const chosen = choose(met.value, options);
    if (!chosen.ok) {
      await door.leave();
      return chosen;
    }
    const { silicon, pages } = chosen.value;
    const done = await new Transfer(door, pages, options.onStage).run();
    if (done.ok || isUntouched(done.error)) await door.leave();
    return done.ok ? fine({ silicon, loader, bytes: pages.bytes }) : done;
  } finally {
    await door.close();
  }
};

/** Resets the board, asks its loader for the chip's signature and lets the program go on. Writes nothing. */
export async function askLoader(options: AskOptions): Promise<Outcome<Met, WriteError>> {
  const door = new Door(options);
  try {
    const met = await meet(door, options);
    if (met.ok) await door.leave();
    return met;
  } finally {
    await door.close();
  }
}

async function meet(door: Door, { chip, likely }: AskOptions): Promise<Outcome<Met, WriteError>> {
  const { own, others } = loadersFor(chip, likely);
  const entered = await door.enter(own, others);
  if (!entered.ok) {
    const { error } = entered;
    return failed(error.kind === 'open' || error.kind === 'noLoader' ? error : { ...error, leftAs: 'untouched' });
  }
  let signature = await readSignature(door);
  if (!signature.ok && signature.error.kind === 'silent') {
    // It may have lost its patience between two answers: nothing is written yet, so a reset costs nothing.
    const back = await door.again();
    if (back.ok) signature = await readSignature(door);
  }
  if (!signature.ok) {
    await door.leave();
    return signature;
  }
  return fine({ loader: entered.value, signature: signature.value, silicon: siliconOf(signature.value) });
}

/** Until it is heard twice alike: version 1 has no checksum, and a wrong one would put the wrong image on. */
async function readSignature(door: Door): Promise<Outcome<string, WriteError>> {
  let last: string | null = null;
  for (let reading = 0; reading < 4; reading++) {
    const read = await door.client.signature();
    if (!read.ok) return failed(troubleError(read.error, 0, 'untouched'));
    if (read.value === last) return fine(last);
    last = read.value;
  }
  return failed({ kind: 'refused', at: 0, leftAs: 'untouched', detail: 'the signature differs with every reading' });
}

interface Chosen {
  readonly silicon: Silicon;
  readonly pages: Pages;
}

function choose({ loader, signature, silicon }: Met, { chip, image }: WriteOptions): Outcome<Chosen, WriteError> {
  if (silicon === null) return failed({ kind: 'unknownChip', signature });
  if (chip !== null && silicon.chip !== chip) return failed({ kind: 'wrongChip', found: silicon });
  const profile = LOADERS[loader];
  if (silicon.chip !== profile.chip) {
    const detail = `an ${silicon.name} behind a loader of another chip`;
    return failed({ kind: 'refused', at: 0, leftAs: 'untouched', detail });
  }
  const flash = image(silicon.chip);
  if (flash === null) return failed({ kind: 'noImage', chip: silicon.chip });
  const pages = pagesOf(flash, profile.pageBytes);
  if (pages.bytes === 0) return failed({ kind: 'noImage', chip: silicon.chip });
  if (pages.bytes > profile.room) return failed({ kind: 'tooLarge', bytes: pages.bytes, room: profile.room });
  return fine({ silicon, pages });
}

function isUntouched(error: WriteError): boolean {
  return error.kind === 'cancelled' && error.leftAs === 'untouched';
}
