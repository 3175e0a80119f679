/** A shipped image on the emulated chip with its lamps wired, for measuring in cycles. */
import { readFileSync } from 'node:fs';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { CHIPS } from '../../electron/host/virtual/chips.ts';
import { parseHex } from '../../electron/host/virtual/hex.ts';
import { LampWires } from '../../electron/host/virtual/lamps.ts';
import { encodeRequest, parseLine } from '../../shared/link/line.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { buildStore } from '../../shared/table/store.ts';

export const CYCLES_PER_MS = 16_000;

const IMAGES = new URL('../../firmware/images/', import.meta.url);

interface ManifestChip {
  readonly file: string;
  readonly symbols: Readonly<Record<string, number>>;
}

export function manifest(chip: Chip): ManifestChip {
  const all = JSON.parse(readFileSync(new URL('manifest.json', IMAGES), 'utf8'));
  return all.chips[chip];
}

export function shippedFlash(chip: Chip): Uint8Array {
  const hex = parseHex(readFileSync(new URL(manifest(chip).file, IMAGES), 'utf8'), CHIPS[chip].flashBytes);
  if (!hex.ok) throw new Error(hex.error);
  return hex.bytes;
}

export function imageOf(table: BoardTable): Uint8Array {
  const { bytes, findings } = encodeTable(table);
  if (!bytes) throw new Error(JSON.stringify(findings));
  return bytes;
}

/** An EEPROM whose newest slot holds the table. */
export function storeWith(table: BoardTable): Uint8Array {
  return buildStore(table.chip, { slots: [{ sequence: 1, image: imageOf(table) }, null] });
}

export interface Edge {
  readonly cycles: number;
  readonly lamp: number;
  readonly lit: boolean;
}

export class Rig {
  readonly board: VirtualBoard;
  readonly wires: LampWires;
  /** Lamp edges since the last `takeEdges`. */
  edges: Edge[] = [];
  /** Lines that the board has sent, oldest first, as text. */
  readonly lines: string[] = [];
  readonly symbols: Readonly<Record<string, number>>;
  /** Cycle at which the last byte of the last request was in the chip. */
  lastByteIn = 0;
  private text = '';
  private sequence = 0;

  constructor(table: BoardTable, eeprom: Uint8Array | null = storeWith(table)) {
    this.symbols = manifest(table.chip).symbols;
    this.board = new VirtualBoard({
      chip: table.chip,
      flash: shippedFlash(table.chip),
      ...(eeprom ? { eeprom } : {}),
    });
    this.wires = new LampWires(table, (lamp, lit, cycles) => this.edges.push({ cycles, lamp, lit }));
    this.board.onPin = (pin, level, cycles) => this.wires.pin(pin, level, cycles);
    this.board.onChainBit = (bit, level, cycles) => this.wires.chainBit(bit, level, cycles);
    this.board.onByte = (byte) => this.hear(byte);
    if (table.chain) this.board.connectChain(table.chain);
  }

  takeEdges(): Edge[] {
    const { edges } = this;
    this.edges = [];
    return edges;
  }

  runMs(ms: number): void {
    this.board.run(ms * CYCLES_PER_MS);
  }

  /** Lit lamps as text, one digit a lamp. */
  get lit(): string {
    return this.wires.lit.map((lit) => (lit ? '1' : '0')).join('');
  }

  address(symbol: string): number {
    const address = this.symbols[symbol];
    if (address === undefined) throw new Error(`the manifest has no symbol ${symbol}`);
    return address;
  }

  /** Writes the board's millisecond counter; call it when the C runtime is done. */
  setBoardTime(ms: number): void {
    const at = this.address('board_now');
    for (let byte = 0; byte < 4; byte++) this.board.poke(at + byte, (ms >>> (8 * byte)) & 0xff);
  }

  /** Sends a request and runs until its answer has come; the answer's fields after `ok`, or the refusal. */
  ask(word: string, ...args: (string | number)[]): string {
    this.sequence = (this.sequence + 1) & 0xff;
    const line = encodeRequest(this.sequence, word, args);
    this.board.write(new TextEncoder().encode(line));
    while (this.board.bytesOnTheWay > 0) this.board.run(16);
    this.lastByteIn = this.board.cycles;
    const from = this.lines.length;
    for (let ms = 0; ms < 12_000; ms++) {
      this.runMs(1);
      for (const text of this.lines.slice(from)) {
        const parsed = parseLine(text);
        if (parsed.kind !== 'answer' || parsed.sequence !== this.sequence) continue;
        const { outcome } = parsed;
        return outcome.ok ? ['ok', ...outcome.fields].join(' ') : `no ${outcome.code} ${outcome.place ?? '-'}`;
      }
    }
    throw new Error(`no answer to ${line}`);
  }

  private hear(byte: number): void {
    if (byte !== 0x0a) {
      this.text += String.fromCharCode(byte);
      return;
    }
    this.lines.push(this.text);
    this.text = '';
  }
}
