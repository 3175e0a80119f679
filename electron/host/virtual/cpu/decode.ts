/**
 * Chooses the step for a place in the flash. What compilers rarely emit is left
 * to the emulator's own decoder; a test holds every opcode against it.
 */
import { avrInstruction, type CPU } from 'avr8js';
import { oneRegister, twoRegisters, withConstant, wordConstant } from './arithmetic.ts';
import { absolute, branch, inOut, registerBit, relative, ret } from './flow.ts';
import { displaced, loadStore } from './memory.ts';
import { HOLDS_INTERRUPTS, ORDINARY, type Place, SLEEPS, type Step, type StepKind } from './step.ts';

const NOP = 0x0000;
const RET = 0x9508;
const RETI = 0x9518;
const SEI = 0x9478;
const SLEEP = 0x9588;

/** `pc` is a word address; from data address `ramStart` on there are no registers. */
export function decodeStep(cpu: CPU, pc: number, ramStart: number): Step {
  const opcode = cpu.progMem[pc] ?? 0;
  const place: Place = { cpu, data: cpu.data, pc, opcode, ramStart, next: (pc + 1) % cpu.progMem.length };
  return special(place) ?? common(place) ?? original(cpu, ORDINARY);
}

function special({ cpu, next, opcode }: Place): Step | null {
  if (opcode === SEI || opcode === RETI) return original(cpu, HOLDS_INTERRUPTS);
  if (opcode !== NOP && opcode !== SLEEP) return null;
  const kind = opcode === SLEEP ? SLEEPS : ORDINARY;
  return () => {
    cpu.pc = next;
    cpu.cycles++;
    return kind;
  };
}

function common(place: Place): Step | null {
  const { opcode } = place;
  switch (opcode >> 12) {
    case 0x0:
    case 0x1:
    case 0x2:
      return twoRegisters(place);
    case 0x8:
    case 0xa:
      return displaced(place);
    case 0x9:
      return nines(place);
    case 0xb:
      return inOut(place);
    case 0xc:
    case 0xd:
      return relative(place);
    case 0xf:
      return opcode & 0x800 ? registerBit(place) : branch(place);
    default:
      return withConstant(place);
  }
}

function nines(place: Place): Step | null {
  const { opcode } = place;
  if (opcode === RET) return ret(place);
  if ((opcode & 0xfc00) === 0x9000) return loadStore(place);
  if ((opcode & 0xfe0c) === 0x940c) return absolute(place);
  if ((opcode & 0xfe00) === 0x9600) return wordConstant(place);
  return (opcode & 0xfe00) === 0x9400 ? oneRegister(place) : null;
}

function original(cpu: CPU, kind: StepKind): Step {
  return () => {
    avrInstruction(cpu);
    return kind;
  };
}
