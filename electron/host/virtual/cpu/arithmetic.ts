/** Arithmetic, logic and moves between registers. Each step is written out: this is the hot loop of the emulator. */
import { ADD_FLAGS, LOGIC_FLAGS, SHIFT_FLAGS, SUB_FLAGS } from './flags.ts';
import { ORDINARY, type Place, SREG, type Step, skipping } from './step.ts';

const [ADD0, ADD1] = ADD_FLAGS as [Uint8Array, Uint8Array];
const [SUB0, SUB1] = SUB_FLAGS as [Uint8Array, Uint8Array];

/** Opcodes 0000 to 2FFF: two registers. */
export function twoRegisters(place: Place): Step | null {
  const { cpu, next, opcode } = place;
  const data = place.data as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const r = (opcode & 0xf) | ((opcode & 0x200) >> 5);
  const at = (register: number): number => data[register] as number;
  if ((opcode & 0xff00) === 0x0100) {
    // MOVW
    const d2 = 2 * ((opcode & 0xf0) >> 4);
    const r2 = 2 * (opcode & 0xf);
    return () => {
      data[d2] = at(r2);
      data[d2 + 1] = at(r2 + 1);
      cpu.pc = next;
      cpu.cycles++;
      return ORDINARY;
    };
  }
  switch (opcode & 0xfc00) {
    case 0x0400: // CPC: Z stays set only if it was, so that it speaks of the whole number.
      return () => {
        const sreg = at(SREG);
        const flags = (sreg & 1 ? SUB1 : SUB0)[(at(d) << 8) | at(r)] as number;
        data[SREG] = (sreg & 0xc0) | (flags & (sreg | 0xfd));
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x0800: // SBC
      return () => {
        const sreg = at(SREG);
        const a = at(d);
        const b = at(r);
        data[d] = (a - b - (sreg & 1)) & 0xff;
        const flags = (sreg & 1 ? SUB1 : SUB0)[(a << 8) | b] as number;
        data[SREG] = (sreg & 0xc0) | (flags & (sreg | 0xfd));
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x0c00: // ADD
      return () => {
        const a = at(d);
        const b = at(r);
        data[d] = (a + b) & 0xff;
        data[SREG] = (at(SREG) & 0xc0) | (ADD0[(a << 8) | b] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x1c00: // ADC
      return () => {
        const sreg = at(SREG);
        const a = at(d);
        const b = at(r);
        data[d] = (a + b + (sreg & 1)) & 0xff;
        data[SREG] = (sreg & 0xc0) | ((sreg & 1 ? ADD1 : ADD0)[(a << 8) | b] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x1000: {
      // CPSE
      const skip = skipping(place);
      return () => {
        const isSame = at(d) === at(r);
        cpu.pc = isSame ? skip.to : next;
        cpu.cycles += isSame ? skip.cycles : 1;
        return ORDINARY;
      };
    }
    case 0x1400: // CP
      return () => {
        data[SREG] = (at(SREG) & 0xc0) | (SUB0[(at(d) << 8) | at(r)] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x1800: // SUB
      return () => {
        const a = at(d);
        const b = at(r);
        data[d] = (a - b) & 0xff;
        data[SREG] = (at(SREG) & 0xc0) | (SUB0[(a << 8) | b] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x2000: // AND
      return () => {
        const result = at(d) & at(r);
        data[d] = result;
        data[SREG] = (at(SREG) & 0xe1) | (LOGIC_FLAGS[result] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x2400: // EOR
      return () => {
        const result = at(d) ^ at(r);
        data[d] = result;
        data[SREG] = (at(SREG) & 0xe1) | (LOGIC_FLAGS[result] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x2800: // OR
      return () => {
        const result = at(d) | at(r);
        data[d] = result;
        data[SREG] = (at(SREG) & 0xe1) | (LOGIC_FLAGS[result] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x2c00: // MOV
      return () => {
        data[d] = at(r);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    default:
      return null;
  }
}

/** Opcodes 3000 to 7FFF and E000 to EFFF: a register from 16 on and a constant. */
export function withConstant({ cpu, data: bytes, next, opcode }: Place): Step {
  const data = bytes as unknown as number[];
  const d = ((opcode & 0xf0) >> 4) + 16;
  const k = (opcode & 0xf) | ((opcode & 0xf00) >> 4);
  const at = (register: number): number => data[register] as number;
  switch (opcode & 0xf000) {
    case 0x3000: // CPI
      return () => {
        data[SREG] = (at(SREG) & 0xc0) | (SUB0[(at(d) << 8) | k] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x4000: // SBCI
      return () => {
        const sreg = at(SREG);
        const a = at(d);
        data[d] = (a - k - (sreg & 1)) & 0xff;
        const flags = (sreg & 1 ? SUB1 : SUB0)[(a << 8) | k] as number;
        data[SREG] = (sreg & 0xc0) | (flags & (sreg | 0xfd));
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x5000: // SUBI
      return () => {
        const a = at(d);
        data[d] = (a - k) & 0xff;
        data[SREG] = (at(SREG) & 0xc0) | (SUB0[(a << 8) | k] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x6000: // ORI
      return () => {
        const result = at(d) | k;
        data[d] = result;
        data[SREG] = (at(SREG) & 0xe1) | (LOGIC_FLAGS[result] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x7000: // ANDI
      return () => {
        const result = at(d) & k;
        data[d] = result;
        data[SREG] = (at(SREG) & 0xe1) | (LOGIC_FLAGS[result] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    default: // LDI
      return () => {
        data[d] = k;
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
  }
}

/** 1001 010d dddd xxxx: one register. */
export function oneRegister({ cpu, data: bytes, next, opcode }: Place): Step | null {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const at = (register: number): number => data[register] as number;
  switch (opcode & 0xfe0f) {
    case 0x9402: // SWAP
      return () => {
        data[d] = ((at(d) << 4) | (at(d) >> 4)) & 0xff;
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x9403: // INC
    case 0x940a: {
      // DEC: V is set when the sign alone changed; C stays.
      const [step, overflown] = (opcode & 0xf) === 3 ? [1, 0x80] : [-1, 0x7f];
      return () => {
        const result = (at(d) + step) & 0xff;
        data[d] = result;
        const flags = LOGIC_FLAGS[result] as number;
        data[SREG] = (at(SREG) & 0xe1) | (result === overflown ? flags ^ 0x18 : flags);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    }
    case 0x9406: // LSR
      return () => {
        const value = at(d);
        data[d] = value >> 1;
        data[SREG] = (at(SREG) & 0xe0) | (SHIFT_FLAGS[(value >> 1) | ((value & 1) << 8)] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0x9407: // ROR
      return () => {
        const value = at(d);
        const result = (value >> 1) | ((at(SREG) & 1) << 7);
        data[d] = result;
        data[SREG] = (at(SREG) & 0xe0) | (SHIFT_FLAGS[result | ((value & 1) << 8)] as number);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    default:
      return null;
  }
}

/** ADIW and SBIW: a constant to or from a pair of registers. */
export function wordConstant({ cpu, data: bytes, next, opcode }: Place): Step {
  const data = bytes as unknown as number[];
  const low = 2 * ((opcode & 0x30) >> 4) + 24;
  const k = (opcode & 0xf) | ((opcode & 0xc0) >> 2);
  const isAdding = (opcode & 0xff00) === 0x9600;
  return () => {
    const value = (data[low] as number) | ((data[low + 1] as number) << 8);
    const result = (isAdding ? value + k : value - k) & 0xffff;
    data[low] = result & 0xff;
    data[low + 1] = result >> 8;
    const negative = result >> 15;
    const overflow = (isAdding ? ~value & result : value & ~result) & 0x8000 ? 1 : 0;
    const carry = (isAdding ? value & ~result : ~value & result) & 0x8000 ? 1 : 0;
    const zero = result === 0 ? 2 : 0;
    data[SREG] =
      ((data[SREG] as number) & 0xe0) | carry | zero | (negative << 2) | (overflow << 3) | ((negative ^ overflow) << 4);
    cpu.pc = next;
    cpu.cycles += 2;
    return ORDINARY;
  };
}
