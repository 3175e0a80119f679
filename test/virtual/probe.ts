import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CHIPS } from '../../electron/host/virtual/chips.ts';
import { parseHex } from '../../electron/host/virtual/hex.ts';
import type { Chip } from '../../shared/table/format.ts';

/** Builds probe.c for a chip and returns the contents of its flash. */
export function buildProbe(chip: Chip): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-probe-'));
  try {
    const elf = join(folder, 'probe.elf');
    const hex = join(folder, 'probe.hex');
    const source = new URL('./probe.c', import.meta.url).pathname;
    execFileSync('avr-gcc', [`-mmcu=${chip}`, '-DF_CPU=16000000UL', '-Os', '-Wall', '-Werror', source, '-o', elf]);
    execFileSync('avr-objcopy', ['-O', 'ihex', elf, hex]);
    const parsed = parseHex(readFileSync(hex, 'utf8'), CHIPS[chip].flashBytes);
    if (!parsed.ok) throw new Error(parsed.error);
    return parsed.bytes;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
