/** Loads, stores, the stack and program memory. RAM is bytes; registers go through the emulator's hooks. */
import { ORDINARY, type Place, type Step } from './step.ts';

const [X, Y, Z] = [26, 28, 30] as const;
const SPL = 93;

/** 10q0 qqxd dddd yqqq: LDD and STD, which with q 0 are LD and ST. */
export function displaced({ cpu, data: bytes, next, opcode, ramStart }: Place): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const q = (opcode & 7) | ((opcode & 0xc00) >> 7) | ((opcode & 0x2000) >> 8);
  const low = opcode & 8 ? Y : Z;
  if (opcode & 0x200) {
    return () => {
      const address = ((data[low] as number) | ((data[low + 1] as number) << 8)) + q;
      if (address >= ramStart) data[address] = data[d] as number;
      else cpu.writeData(address, data[d] as number);
      cpu.pc = next;
      cpu.cycles += 2;
      return ORDINARY;
    };
  }
  return () => {
    cpu.cycles++;
    const address = ((data[low] as number) | ((data[low + 1] as number) << 8)) + q;
    data[d] = address >= ramStart ? (data[address] as number) : cpu.readData(address);
    cpu.pc = next;
    cpu.cycles++;
    return ORDINARY;
  };
}

/** 1001 00xd dddd yyyy: direct, with the pointer stepping, the stack, LPM. */
export function loadStore(place: Place): Step | null {
  const { opcode } = place;
  const isStore = (opcode & 0x200) !== 0;
  switch (opcode & 0xf) {
    case 0x0:
      return direct(place, isStore);
    case 0x1:
      return pointed(place, isStore, Z, 0, 1);
    case 0x2:
      return pointed(place, isStore, Z, -1, 0);
    case 0x4:
      return isStore ? null : fromFlash(place, 0);
    case 0x5:
      return isStore ? null : fromFlash(place, 1);
    case 0x9:
      return pointed(place, isStore, Y, 0, 1);
    case 0xa:
      return pointed(place, isStore, Y, -1, 0);
    case 0xc:
      return pointed(place, isStore, X, 0, 0);
    case 0xd:
      return pointed(place, isStore, X, 0, 1);
    case 0xe:
      return pointed(place, isStore, X, -1, 0);
    case 0xf:
      return isStore ? push(place) : pop(place);
    default:
      return null;
  }
}

function direct({ cpu, data: bytes, pc, opcode, ramStart }: Place, isStore: boolean): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const address = cpu.progMem[pc + 1] ?? 0;
  const after = (pc + 2) % cpu.progMem.length;
  const isRam = address >= ramStart;
  if (isStore) {
    return () => {
      if (isRam) data[address] = data[d] as number;
      else cpu.writeData(address, data[d] as number);
      cpu.pc = after;
      cpu.cycles += 2;
      return ORDINARY;
    };
  }
  return () => {
    cpu.cycles++;
    data[d] = isRam ? (data[address] as number) : cpu.readData(address);
    cpu.pc = after;
    cpu.cycles++;
    return ORDINARY;
  };
}

function pointed(
  { cpu, data: bytes, next, opcode, ramStart }: Place,
  isStore: boolean,
  low: number,
  before: number,
  after: number,
): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const move = (pointer: number): void => {
    data[low] = pointer & 0xff;
    data[low + 1] = (pointer >> 8) & 0xff;
  };
  if (isStore) {
    return () => {
      const value = data[d] as number;
      const address = (((data[low] as number) | ((data[low + 1] as number) << 8)) + before) & 0xffff;
      if (before !== 0) move(address);
      if (address >= ramStart) data[address] = value;
      else cpu.writeData(address, value);
      if (after !== 0) move(address + after);
      cpu.pc = next;
      cpu.cycles += 2;
      return ORDINARY;
    };
  }
  return () => {
    const address = (((data[low] as number) | ((data[low + 1] as number) << 8)) + before) & 0xffff;
    if (before !== 0) move(address);
    cpu.cycles++;
    data[d] = address >= ramStart ? (data[address] as number) : cpu.readData(address);
    if (after !== 0) move(address + after);
    cpu.pc = next;
    cpu.cycles++;
    return ORDINARY;
  };
}

function fromFlash({ cpu, data: bytes, next, opcode }: Place, after: number): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  const { progBytes } = cpu;
  return () => {
    const address = (data[Z] as number) | ((data[Z + 1] as number) << 8);
    data[d] = progBytes[address] as number;
    if (after !== 0) {
      data[Z] = (address + 1) & 0xff;
      data[Z + 1] = ((address + 1) >> 8) & 0xff;
    }
    cpu.pc = next;
    cpu.cycles += 3;
    return ORDINARY;
  };
}

function push({ cpu, data: bytes, next, opcode }: Place): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  return () => {
    const sp = (data[SPL] as number) | ((data[SPL + 1] as number) << 8);
    data[sp] = data[d] as number;
    data[SPL] = (sp - 1) & 0xff;
    data[SPL + 1] = ((sp - 1) >> 8) & 0xff;
    cpu.pc = next;
    cpu.cycles += 2;
    return ORDINARY;
  };
}

function pop({ cpu, data: bytes, next, opcode }: Place): Step {
  const data = bytes as unknown as number[];
  const d = (opcode & 0x1f0) >> 4;
  return () => {
    const sp = ((data[SPL] as number) | ((data[SPL + 1] as number) << 8)) + 1;
    data[SPL] = sp & 0xff;
    data[SPL + 1] = (sp >> 8) & 0xff;
    data[d] = data[sp] as number;
    cpu.pc = next;
    cpu.cycles += 2;
    return ORDINARY;
  };
}
