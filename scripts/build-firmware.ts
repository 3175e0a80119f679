/**
 * Builds firmware/images: one Intel HEX image a chip and manifest.json.
 * With `--check` builds into a temporary folder instead, compares byte for byte
 * with the committed files and exits 1 when one differs.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PROTOCOL_VERSION } from '../shared/link/vocabulary.ts';
import { type Chip, STORE_VERSION } from '../shared/table/format.ts';

const firmware = fileURLToPath(new URL('../firmware', import.meta.url));
const chips: readonly Chip[] = ['atmega328p', 'atmega2560'];

/** Names that tests and tools look for; data addresses count without the 0x800000 of the linker. */
const SYMBOLS = [
  'board_now',
  'board_boot',
  'board_master',
  'image_bytes',
  'image_length',
  'image_shape',
  'lamps_plan',
  'lamps_lit',
  'sites',
  'guard_sum',
  'guard_deeds',
  'guard_faults',
  'main',
  'reset_mark',
  '__heap_start',
] as const;

/** What manifest.json says of one chip's image. */
export interface ImageEntry {
  readonly file: string;
  readonly sha256: string;
  /** Version of the firmware, and of the protocol that it speaks. */
  readonly firmware: string;
  readonly protocol: number;
  /** Version of the store that it writes. */
  readonly store: number;
  /** Bytes of flash used, initial values of data included. */
  readonly flash: number;
  /** .data + .bss + .noinit, bytes. */
  readonly ram: number;
  /** Byte addresses: code in flash, the rest in data space. */
  readonly symbols: Readonly<Record<(typeof SYMBOLS)[number], number>>;
}

export interface Manifest {
  readonly chips: Readonly<Record<Chip, ImageEntry>>;
}

const run = (tool: string, args: readonly string[]) =>
  execFileSync(tool, args, { cwd: firmware, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });

const sources = (folder: string) =>
  readdirSync(join(firmware, folder))
    .filter((name) => name.endsWith('.c'))
    .sort()
    .map((name) => `${folder}/${name}`);

export function firmwareVersion(): string {
  const text = readFileSync(join(firmware, 'core/version.h'), 'utf8');
  const version = /FIRMWARE_VERSION "([^"]+)"/.exec(text)?.[1];
  if (version === undefined) throw new Error('core/version.h names no version');
  return version;
}

/** Sections of an ELF file by name, bytes. */
function sections(elf: string): Map<string, number> {
  const found = new Map<string, number>();
  for (const line of run('avr-size', ['-A', elf]).split('\n')) {
    const [, name, size] = /^(\.\w+)\s+(\d+)/.exec(line) ?? [];
    if (name !== undefined) found.set(name, Number(size));
  }
  return found;
}

function symbols(elf: string): ImageEntry['symbols'] {
  const all = new Map(
    run('avr-nm', [elf])
      .split('\n')
      .map((line) => line.trim().split(/\s+/))
      .map(([address, , name]) => [name ?? '', Number.parseInt(address ?? '', 16)] as const),
  );
  const found = SYMBOLS.map((name) => {
    const address = all.get(name);
    if (address === undefined) throw new Error(`the image has no symbol ${name}`);
    return [name, address & ~0x80_0000] as const;
  });
  return Object.fromEntries(found) as unknown as ImageEntry['symbols'];
}

function build(chip: Chip, out: string, scratch: string): ImageEntry {
  const elf = join(scratch, `${chip}.elf`);
  const file = `amberwick-${chip}.hex`;
  run('avr-gcc', [
    `-mmcu=${chip}`,
    '-DF_CPU=16000000UL',
    `-DCHIP_${chip.toUpperCase()}`,
    ...['-std=gnu11', '-Os', '-flto', '-Wall', '-Wextra', '-Werror', '-ffunction-sections', '-fdata-sections'],
    // Copies of functions for the arguments of one caller: some microseconds, and more flash than there is.
    ...['-fno-ipa-sra', '-fno-ipa-cp'],
    ...['-Wl,--gc-sections', '-Icore', '-Iavr'],
    ...sources('core'),
    ...sources('avr'),
    ...['-o', elf],
  ]);
  run('avr-objcopy', ['-O', 'ihex', '-R', '.eeprom', elf, join(out, file)]);
  const size = sections(elf);
  const bytes = (...names: string[]) => names.reduce((sum, name) => sum + (size.get(name) ?? 0), 0);
  return {
    file,
    sha256: createHash('sha256')
      .update(readFileSync(join(out, file)))
      .digest('hex'),
    firmware: firmwareVersion(),
    protocol: PROTOCOL_VERSION,
    store: STORE_VERSION,
    flash: bytes('.text', '.data'),
    ram: bytes('.data', '.bss', '.noinit'),
    symbols: symbols(elf),
  };
}

/** Builds both images and the manifest into a folder; needs avr-gcc and avr-libc. */
export function buildFirmware(out: string): Manifest {
  const scratch = mkdtempSync(join(tmpdir(), 'amberwick-firmware-'));
  try {
    mkdirSync(out, { recursive: true });
    const entries = chips.map((chip) => [chip, build(chip, out, scratch)] as const);
    const manifest: Manifest = { chips: Object.fromEntries(entries) as unknown as Manifest['chips'] };
    writeFileSync(join(out, 'manifest.json'), `${JSON.stringify(manifest, null, 2)}\n`);
    return manifest;
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** Names of committed files that a fresh build does not give byte for byte. */
export function changedImages(): string[] {
  const fresh = mkdtempSync(join(tmpdir(), 'amberwick-images-'));
  try {
    buildFirmware(fresh);
    return readdirSync(fresh).filter((name) => {
      try {
        return !readFileSync(join(fresh, name)).equals(readFileSync(join(firmware, 'images', name)));
      } catch {
        return true;
      }
    });
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  if (process.argv.includes('--check')) {
    const changed = changedImages();
    for (const name of changed) console.log(`firmware/images/${name} differs from its source: npm run firmware`);
    if (changed.length > 0) process.exitCode = 1;
  } else {
    const manifest = buildFirmware(join(firmware, 'images'));
    for (const [chip, entry] of Object.entries(manifest.chips))
      console.log(`${chip}: ${entry.flash} bytes of flash, ${entry.ram} bytes of RAM`);
  }
}
