import { beforeAll, describe, expect, test } from 'vitest';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import type { Level } from '../../electron/host/virtual/chain.ts';
import { CPU_HZ } from '../../electron/host/virtual/chips.ts';
import type { Chip } from '../../shared/table/format.ts';
import { buildProbe } from './probe.ts';

const MS = CPU_HZ / 1000;
const text = (bytes: number[]): string => String.fromCharCode(...bytes);
const ascii = (line: string): Uint8Array => new TextEncoder().encode(line);

describe.each<Chip>(['atmega328p', 'atmega2560'])('the virtual board with a small program on the %s', (chip) => {
  let flash: Uint8Array;
  beforeAll(() => {
    flash = buildProbe(chip);
  });

  function powered(options: { eeprom?: Uint8Array; supplyMillivolts?: number } = {}) {
    const board = new VirtualBoard({ chip, flash, ...options });
    const bytes: number[] = [];
    const stamps: number[] = [];
    const edges: { level: Level; cycles: number }[] = [];
    board.onByte = (byte, cycles) => {
      bytes.push(byte);
      stamps.push(cycles);
    };
    board.onPin = (pin, level, cycles) => {
      if (pin === 2) edges.push({ level, cycles });
    };
    board.power(true);
    return { board, bytes, stamps, edges };
  }

  test('toggles its pin exactly once a millisecond, for a minute', () => {
    const { board, edges } = powered();
    board.setInput(3, 1);
    board.run(60 * CPU_HZ);
    const toggles = edges.slice(1).map((edge) => edge.cycles);
    expect(toggles.length).toBeGreaterThanOrEqual(59_990);
    const first = toggles[1] ?? 0;
    const last = toggles.at(-1) ?? 0;
    // The interrupt may have to wait for one instruction of the loop, never more; nothing adds up.
    expect(Math.abs(last - first - (toggles.length - 2) * MS)).toBeLessThan(16);
  });

  test('runs the same whether asked once or in a thousand pieces', () => {
    const whole = powered();
    const pieces = powered();
    whole.board.setInput(3, 1);
    pieces.board.setInput(3, 1);
    whole.board.runUntil(500 * MS);
    for (let piece = 1; piece <= 1000; piece++) pieces.board.runUntil(piece * 0.5 * MS);
    expect(pieces.edges).toEqual(whole.edges);
    expect(pieces.edges.length).toBeGreaterThan(490);
  });

  test('an input pulled low is seen, a released one is pulled up again', () => {
    const { board, edges } = powered();
    board.run(10 * MS);
    const before = edges.length;
    expect(before).toBeGreaterThan(8);
    board.setInput(3, 0);
    board.run(MS);
    const held = edges.length;
    board.run(50 * MS);
    expect(edges.length).toBe(held);
    board.setInput(3, null);
    board.run(50 * MS);
    expect(edges.length).toBe(held + 50);
  });

  test('tells why it started: power, reset pin, watchdog', () => {
    const { board, bytes } = powered();
    board.run(5 * MS);
    board.reset();
    board.run(5 * MS);
    board.write(ascii('d'));
    board.run(40 * MS);
    // 'd' is echoed before the watchdog bites 15 ms later.
    expect(bytes).toEqual([0x01, 0x02, 0x64, 0x08]);
  });

  test('bytes take 175 microseconds from the board and 173.6 to it', () => {
    const { board, bytes, stamps } = powered();
    board.run(2 * MS);
    bytes.length = 0;
    stamps.length = 0;
    const sent = board.cycles;
    board.write(ascii('abcdefgh'));
    board.run(5 * MS);
    expect(text(bytes)).toBe('abcdefgh');
    const [first = 0] = stamps;
    // One byte to get there and one to come back, and a few dozen cycles of interrupt between.
    expect(first - sent).toBeGreaterThanOrEqual(2778 + 2800);
    expect(first - sent).toBeLessThan(2778 + 2800 + 100);
    expect((stamps.at(-1) ?? 0) - first).toBeGreaterThanOrEqual(7 * 2777);
    expect((stamps.at(-1) ?? 0) - first).toBeLessThanOrEqual(7 * 2800 + 100);
    expect(board.bytesLost).toBe(0);
  });

  test('an EEPROM byte takes 3.4 ms and is there after the power was off', () => {
    const { board } = powered();
    board.run(2 * MS);
    board.write(ascii('w'));
    board.run(0.3 * MS);
    const busy = () => (board.peek(0x3f) & 0x02) !== 0;
    expect(busy()).toBe(true);
    board.run(3.2 * MS);
    expect(busy()).toBe(true);
    board.run(0.2 * MS);
    expect(busy()).toBe(false);
    board.power(false);
    board.run(MS);
    expect(board.eeprom.memory[5]).toBe(0x3c);
    expect(board.eeprom.operations).toBe(2);
  });

  test('a power cut between erase and write leaves the byte erased and the board dead', () => {
    const { board, bytes } = powered({ eeprom: new Uint8Array(1024).fill(0xa5) });
    board.run(2 * MS);
    board.cutPowerAt({ operation: 1, torn: false });
    board.write(ascii('w'));
    board.run(10 * MS);
    expect(board.powered).toBe(false);
    expect(board.eeprom.memory[5]).toBe(0xff);
    expect(board.pin(2)).toBe('z');
    bytes.length = 0;
    board.power(true);
    board.run(5 * MS);
    expect(bytes).toEqual([0x01]);
  });

  test('a torn write leaves a byte that is neither old nor new', () => {
    const { board } = powered({ eeprom: new Uint8Array(1024).fill(0xff) });
    board.run(2 * MS);
    board.cutPowerAt({ operation: 2, torn: true });
    board.write(ascii('w'));
    board.run(10 * MS);
    expect(board.powered).toBe(false);
    // 3C with the bits 5A not reached: FF AND (3C OR 5A).
    expect(board.eeprom.memory[5]).toBe(0x7e);
  });

  test('reads its supply against the 1.1 V reference', () => {
    const { board, bytes } = powered({ supplyMillivolts: 3300 });
    board.run(2 * MS);
    board.write(ascii('v'));
    board.run(5 * MS);
    // 1.1 / 3.3 of 1024, its upper eight bits.
    expect(bytes.at(-1)).toBe(Math.floor(((1.1 / 3.3) * 1024) / 4));
  });

  test('without power nothing happens but time', () => {
    const { board, bytes } = powered();
    board.power(false);
    const before = board.cycles;
    board.write(ascii('abc'));
    board.run(100 * MS);
    expect(board.cycles).toBe(before + 100 * MS);
    expect(bytes).toEqual([]);
  });
});
