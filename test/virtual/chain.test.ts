import { describe, expect, test } from 'vitest';
import { type Level, ShiftChain } from '../../electron/host/virtual/chain.ts';

const wiring = { chips: 2, data: 8, clock: 9, latch: 10, enable: 11 };

/** A chain with the four wires in hand. */
function chainOf(enable: number | null = 11) {
  const changes: string[] = [];
  const chain = new ShiftChain({ ...wiring, enable }, (bit, level) => changes.push(`${bit}:${level}`));
  const levels = new Map<number, Level>();
  const set = (pin: number, level: Level) => {
    chain.pin(pin, levels.get(pin) ?? 'z', level);
    levels.set(pin, level);
  };
  const pulse = (pin: number) => {
    set(pin, 1);
    set(pin, 0);
  };
  const shift = (bits: string) => {
    for (const bit of bits) {
      set(8, bit === '1' ? 1 : 0);
      pulse(9);
    }
  };
  const shown = () => chain.outputs.join('');
  return { chain, changes, set, pulse, shift, shown };
}

describe('a chain of two 74HC595', () => {
  test('shows nothing until output enable is driven low', () => {
    const { shift, pulse, set, shown } = chainOf();
    expect(shown()).toBe('z'.repeat(16));
    shift('1000000000000001');
    pulse(10);
    expect(shown()).toBe('z'.repeat(16));
    set(11, 0);
    expect(shown()).toBe('1000000000000001');
    set(11, 'z');
    expect(shown()).toBe('z'.repeat(16));
  });

  test('the last bit shifted in is bit 0, QA of the chip nearest to the board', () => {
    const { shift, pulse, set, shown } = chainOf();
    set(11, 0);
    shift('0000000011110001');
    pulse(10);
    expect(shown()).toBe('1000111100000000');
  });

  test('outputs change at the latch, all of them, and not while bits are shifted', () => {
    const { shift, pulse, set, changes } = chainOf();
    shift('0'.repeat(16));
    pulse(10);
    set(11, 0);
    changes.length = 0;
    shift('1111000000000000');
    expect(changes).toEqual([]);
    pulse(10);
    expect(changes).toEqual(['12:1', '13:1', '14:1', '15:1']);
  });

  test('with output enable tied low it shows its power-on bits at once', () => {
    expect(chainOf(null).shown()).toBe('1010101010101010');
  });

  test('clock and latch count on the rising edge only', () => {
    const { set, shown } = chainOf();
    set(11, 0);
    const before = shown();
    set(9, 1);
    set(8, 1);
    set(9, 0);
    set(9, 0);
    set(10, 0);
    expect(shown()).toBe(before);
    set(10, 1);
    // One clock edge came before the data line was high.
    expect(shown()).toBe('0101010101010101');
  });
});
