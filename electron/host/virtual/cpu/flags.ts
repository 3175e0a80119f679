/**
 * Status flags of 8-bit arithmetic as tables, from the definitions in the AVR
 * instruction set manual: H S V N Z C in bits 5 to 0.
 */

const C = 0x01;
const Z = 0x02;
const N = 0x04;
const V = 0x08;
const S = 0x10;
const H = 0x20;

function signed(flags: number): number {
  const isNegative = (flags & N) !== 0;
  const hasOverflown = (flags & V) !== 0;
  return isNegative === hasOverflown ? flags : flags | S;
}

function table(carry: 0 | 1, flagsOf: (d: number, r: number, carry: number) => number): Uint8Array {
  const flags = new Uint8Array(0x10000);
  for (let d = 0; d < 256; d++) for (let r = 0; r < 256; r++) flags[(d << 8) | r] = signed(flagsOf(d, r, carry));
  return flags;
}

function sum(d: number, r: number, carry: number): number {
  const result = (d + r + carry) & 0xff;
  return (
    ((d & 15) + (r & 15) + carry > 15 ? H : 0) |
    (d + r + carry > 255 ? C : 0) |
    (result === 0 ? Z : 0) |
    (result & 0x80 ? N : 0) |
    (~(d ^ r) & (d ^ result) & 0x80 ? V : 0)
  );
}

function difference(d: number, r: number, carry: number): number {
  const result = (d - r - carry) & 0xff;
  return (
    ((d & 15) < (r & 15) + carry ? H : 0) |
    (d < r + carry ? C : 0) |
    (result === 0 ? Z : 0) |
    (result & 0x80 ? N : 0) |
    ((d ^ r) & (d ^ result) & 0x80 ? V : 0)
  );
}

/** Index: carry in, then destination × 256 + source. */
export const ADD_FLAGS: readonly [Uint8Array, Uint8Array] = [table(0, sum), table(1, sum)];
export const SUB_FLAGS: readonly [Uint8Array, Uint8Array] = [table(0, difference), table(1, difference)];

/** After a logical operation, by its result: V is clear. */
export const LOGIC_FLAGS = Uint8Array.from({ length: 256 }, (_, result) =>
  signed((result === 0 ? Z : 0) | (result & 0x80 ? N : 0)),
);

/** After a shift to the right, by result + 256 × the bit shifted out: V is N xor C. */
export const SHIFT_FLAGS = Uint8Array.from({ length: 512 }, (_, index) => {
  const carry = index >> 8;
  const negative = (index >> 7) & 1;
  return signed(((index & 0xff) === 0 ? Z : 0) | (negative ? N : 0) | carry | (negative !== carry ? V : 0));
});
