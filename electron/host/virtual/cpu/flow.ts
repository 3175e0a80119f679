/** Branches, skips, jumps, calls, and single bits of registers. */
import { ORDINARY, type Place, SREG, type Step, skipping } from './step.ts';

const SPL = 93;

/** F000 to F7FF: branch on a status flag. */
export function branch({ cpu, data: bytes, pc, next, opcode }: Place): Step {
  const data = bytes as unknown as number[];
  const mask = 1 << (opcode & 7);
  const wanted = opcode & 0x400 ? 0 : mask;
  const offset = ((opcode & 0x1f8) >> 3) - (opcode & 0x200 ? 0x40 : 0);
  const target = wrapped(cpu.progMem.length, pc + 1 + offset);
  return () => {
    if (((data[SREG] as number) & mask) === wanted) {
      cpu.pc = target;
      cpu.cycles += 2;
    } else {
      cpu.pc = next;
      cpu.cycles++;
    }
    return ORDINARY;
  };
}

/** F800 to FFFF: BLD, BST, and skips on a bit of a register. */
export function registerBit(place: Place): Step | null {
  const { cpu, next, opcode } = place;
  if (opcode & 8) return null;
  const data = place.data as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const bit = opcode & 7;
  const mask = 1 << bit;
  switch (opcode & 0xfe08) {
    case 0xf800:
      return () => {
        data[d] = ((data[d] as number) & ~mask) | ((((data[SREG] as number) >> 6) & 1) << bit);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    case 0xfa00:
      return () => {
        data[SREG] = ((data[SREG] as number) & 0xbf) | ((((data[d] as number) >> bit) & 1) << 6);
        cpu.pc = next;
        cpu.cycles++;
        return ORDINARY;
      };
    default: {
      const skip = skipping(place);
      const wanted = opcode & 0x200 ? mask : 0;
      return () => {
        const isSkipped = ((data[d] as number) & mask) === wanted;
        cpu.pc = isSkipped ? skip.to : next;
        cpu.cycles += isSkipped ? skip.cycles : 1;
        return ORDINARY;
      };
    }
  }
}

/** RJMP and RCALL. */
export function relative(place: Place): Step {
  const { cpu, pc, next, opcode } = place;
  const target = wrapped(cpu.progMem.length, pc + 1 + (opcode & 0x7ff) - (opcode & 0x800 ? 0x800 : 0));
  if ((opcode & 0xf000) === 0xd000) return call(place, target, next, cpu.pc22Bits ? 4 : 3);
  return () => {
    cpu.pc = target;
    cpu.cycles += 2;
    return ORDINARY;
  };
}

/** JMP and CALL, two words. */
export function absolute(place: Place): Step {
  const { cpu, pc, opcode } = place;
  const target = ((cpu.progMem[pc + 1] ?? 0) | ((opcode & 1) << 16) | ((opcode & 0x1f0) << 13)) % cpu.progMem.length;
  if (opcode & 2) return call(place, target, pc + 2, cpu.pc22Bits ? 5 : 4);
  return () => {
    cpu.pc = target;
    cpu.cycles += 3;
    return ORDINARY;
  };
}

function call({ cpu, data: bytes }: Place, target: number, back: number, cycles: number): Step {
  const data = bytes as unknown as number[];
  const isLong = cpu.pc22Bits;
  return () => {
    const sp = (data[SPL] as number) | ((data[SPL + 1] as number) << 8);
    data[sp] = back & 0xff;
    data[sp - 1] = (back >> 8) & 0xff;
    if (isLong) data[sp - 2] = (back >> 16) & 0xff;
    const below = sp - (isLong ? 3 : 2);
    data[SPL] = below & 0xff;
    data[SPL + 1] = (below >> 8) & 0xff;
    cpu.pc = target;
    cpu.cycles += cycles;
    return ORDINARY;
  };
}

export function ret({ cpu, data: bytes }: Place): Step {
  const data = bytes as unknown as number[];
  const isLong = cpu.pc22Bits;
  const size = cpu.progMem.length;
  return () => {
    const sp = ((data[SPL] as number) | ((data[SPL + 1] as number) << 8)) + (isLong ? 3 : 2);
    data[SPL] = sp & 0xff;
    data[SPL + 1] = (sp >> 8) & 0xff;
    const back = (isLong ? (data[sp - 2] as number) << 16 : 0) | ((data[sp - 1] as number) << 8) | (data[sp] as number);
    cpu.pc = back % size;
    cpu.cycles += isLong ? 5 : 4;
    return ORDINARY;
  };
}

/** B000 to BFFF: IN and OUT, always through the hooks. */
export function inOut({ cpu, data: bytes, next, opcode }: Place): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const address = ((opcode & 0xf) | ((opcode & 0x600) >> 5)) + 32;
  if (opcode & 0x800) {
    return () => {
      cpu.writeData(address, data[d] as number);
      cpu.pc = next;
      cpu.cycles++;
      return ORDINARY;
    };
  }
  return () => {
    data[d] = cpu.readData(address);
    cpu.pc = next;
    cpu.cycles++;
    return ORDINARY;
  };
}

function wrapped(size: number, pc: number): number {
  return ((pc % size) + size) % size;
}
