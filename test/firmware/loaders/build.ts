/** Builds the small programs of this folder; needs avr-gcc. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { CHIPS } from '../../../electron/host/virtual/chips.ts';
import { parseHex } from '../../../electron/host/virtual/hex.ts';
import type { Chip } from '../../../shared/table/format.ts';

const here = fileURLToPath(new URL('.', import.meta.url));

/** Where the boot section begins, bytes: 256 words of an ATmega328P, 4,096 of an ATmega2560. */
export const BOOT_AT: Readonly<Record<Chip, number>> = { atmega328p: 0x7e00, atmega2560: 0x3e000 };

/** What the newer loader leaves on; see newer.S. */
export const LEAVES = { line: 1, timer: 2, watchdog: 4, led: 8, vectors: 16, stack: 32, ports: 64 } as const;

export interface Boot {
  readonly at: number;
  readonly code: Uint8Array;
}

function assemble(name: string, chip: Chip, at: number, defines: Readonly<Record<string, number>>): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-loader-'));
  try {
    const elf = join(folder, 'made.elf');
    const hex = join(folder, 'made.hex');
    execFileSync('avr-gcc', [
      ...[`-mmcu=${chip}`, '-nostartfiles', '-nostdlib', `-Wl,--section-start=.text=0x${at.toString(16)}`],
      ...Object.entries(defines).map(([key, value]) => `-D${key}=${value}`),
      ...[join(here, `${name}.S`), '-o', elf],
    ]);
    execFileSync('avr-objcopy', ['-O', 'ihex', elf, hex]);
    const parsed = parseHex(readFileSync(hex, 'utf8'), CHIPS[chip].flashBytes);
    if (!parsed.ok) throw new Error(parsed.error);
    return parsed.bytes;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The older loader waits `waitMs` before each start, the newer one only after a reset by the reset pin. */
export function buildLoader(
  kind: 'older' | 'newer',
  chip: Chip,
  options: { waitMs?: number; leaves?: number } = {},
): Boot {
  const at = BOOT_AT[chip];
  const defines = { WAIT_MS: options.waitMs ?? 100, LEAVES: options.leaves ?? 0 };
  return { at, code: assemble(kind, chip, at, defines).subarray(at) };
}

/** A program at address 0, as the contents of the flash. */
export function buildProgram(name: 'bitten' | 'parking', chip: Chip): Uint8Array {
  return assemble(name, chip, 0, {});
}
