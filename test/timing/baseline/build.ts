/** Builds the programs that the firmware is measured against, and loads them into the same emulator. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { VirtualBoard } from '../../../electron/host/virtual/board.ts';
import { CHIPS } from '../../../electron/host/virtual/chips.ts';
import { parseHex } from '../../../electron/host/virtual/hex.ts';
import { LampWires } from '../../../electron/host/virtual/lamps.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import type { Edge } from '../rig.ts';

const here = fileURLToPath(new URL('.', import.meta.url));
const CHIP = 'atmega328p';

/** The usual program, the same with times that add up, and the board that the computer switches. */
export type Baseline = 'usual' | 'added-up' | 'driven';

const SOURCES: Readonly<Record<Baseline, readonly string[]>> = {
  usual: ['usual.c'],
  'added-up': ['-DADDED_UP', 'usual.c'],
  driven: ['driven.c'],
};

export interface BuiltProgram {
  readonly flash: Uint8Array;
  /** Bytes of flash used, initial values of data included. */
  readonly flashBytes: number;
  /** .data + .bss, bytes. */
  readonly ramBytes: number;
  /** Byte addresses of functions in flash, and of variables in data space. */
  readonly addresses: ReadonlyMap<string, number>;
}

/** Needs avr-gcc and avr-libc; throws when the program does not build. */
export function buildBaseline(name: Baseline): BuiltProgram {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-baseline-'));
  const run = (tool: string, args: readonly string[]) => execFileSync(tool, args, { cwd: here, encoding: 'utf8' });
  try {
    const elf = join(folder, 'program.elf');
    const hex = join(folder, 'program.hex');
    // As the shipped firmware is built.
    const options = ['-std=gnu11', '-Os', '-flto', '-Wall', '-Wextra', '-Werror'];
    run('avr-gcc', [`-mmcu=${CHIP}`, '-DF_CPU=16000000UL', ...options, ...SOURCES[name], '-o', elf]);
    run('avr-objcopy', ['-O', 'ihex', '-R', '.eeprom', elf, hex]);
    const parsed = parseHex(readFileSync(hex, 'utf8'), CHIPS[CHIP].flashBytes);
    if (!parsed.ok) throw new Error(parsed.error);
    const sizes = new Map(
      [...run('avr-size', ['-A', elf]).matchAll(/^(\.\w+)\s+(\d+)/gm)].map(([, section, size]) => [
        section,
        Number(size),
      ]),
    );
    const bytes = (...sections: string[]) => sections.reduce((sum, section) => sum + (sizes.get(section) ?? 0), 0);
    const addresses = new Map(
      [...run('avr-nm', [elf]).matchAll(/^([0-9a-f]+) [tTbBdD] (\w+)$/gm)].map(([, address, symbol]) => [
        symbol ?? '',
        Number.parseInt(address ?? '', 16) & ~0x80_0000,
      ]),
    );
    return { flash: parsed.bytes, flashBytes: bytes('.text', '.data'), ramBytes: bytes('.data', '.bss'), addresses };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The program on an emulated ATmega328P with the lamps of a table wired to it, and the power on. */
export function powered({ flash }: BuiltProgram, table: BoardTable): { board: VirtualBoard; edges: Edge[] } {
  const board = new VirtualBoard({ chip: CHIP, flash });
  const edges: Edge[] = [];
  const wires = new LampWires(table, (lamp, lit, cycles) => edges.push({ cycles, lamp, lit }));
  board.onPin = (pin, level, cycles) => wires.pin(pin, level, cycles);
  board.power(true);
  return { board, edges };
}
