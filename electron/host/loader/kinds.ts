/** The boot loaders that can be met, and how each is reached. */
import type { Chip } from '../../../shared/table/format.ts';
import type { Clock } from '../clock.ts';
import type { LoaderClient } from './client.ts';
import type { LoaderLine } from './line.ts';
import { Stk500v1 } from './stk500v1.ts';
import { Stk500v2 } from './stk500v2.ts';
import type { LoaderKind } from './types.ts';

export interface LoaderProfile {
  readonly baud: number;
  /** The chip that it is found on. */
  readonly chip: Chip;
  /** Page of that chip's flash: 64 words (Atmel 8271), 128 words (Atmel 2549). */
  readonly pageBytes: number;
  /** Bytes of flash below the loader. */
  readonly room: number;
  client(line: LoaderLine, clock: Clock): LoaderClient;
}

const MEGA2560_FLASH = 262_144;

export const LOADERS: Readonly<Record<LoaderKind, LoaderProfile>> = {
  // The newer, small one: 512 bytes below the end of 32 KB. The older: 2 KB.
  'v1-115200': { baud: 115_200, chip: 'atmega328p', pageBytes: 128, room: 32_256, client: v1 },
  'v1-57600': { baud: 57_600, chip: 'atmega328p', pageBytes: 128, room: 30_720, client: v1 },
  // 8 KB for the loader, from memory.
  'v2-115200': { baud: 115_200, chip: 'atmega2560', pageBytes: 256, room: MEGA2560_FLASH - 8192, client: v2 },
};

const ALL = Object.keys(LOADERS) as readonly LoaderKind[];

/** Whom to look for: those that fit, the likely one first, and those that tell that it is another chip. */
export function loadersFor(
  chip: Chip | null,
  likely?: LoaderKind,
): { readonly own: readonly LoaderKind[]; readonly others: readonly LoaderKind[] } {
  const ordered = [...ALL].sort((a, b) => Number(b === likely) - Number(a === likely));
  const fits = (kind: LoaderKind) => chip === null || LOADERS[kind].chip === chip;
  return { own: ordered.filter(fits), others: ordered.filter((kind) => !fits(kind)) };
}

function v1(line: LoaderLine, clock: Clock): LoaderClient {
  return new Stk500v1(line, clock);
}

function v2(line: LoaderLine, clock: Clock): LoaderClient {
  return new Stk500v2(line, clock, MEGA2560_FLASH);
}
