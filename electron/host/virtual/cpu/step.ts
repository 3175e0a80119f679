/** Steps: instructions decoded once, with registers, constants and targets already worked out. */
import type { CPU } from 'avr8js';

/** What the runner has to know about an instruction it executed. */
export const ORDINARY = 0;
/** The next instruction comes before any interrupt (SEI, RETI). */
export const HOLDS_INTERRUPTS = 1;
export const SLEEPS = 2;
export type StepKind = typeof ORDINARY | typeof HOLDS_INTERRUPTS | typeof SLEEPS;

/** Executes one instruction: registers, memory, program counter, cycles. */
export type Step = () => StepKind;

/** One place of the flash, ready to be decoded. */
export interface Place {
  readonly cpu: CPU;
  readonly data: Uint8Array;
  readonly opcode: number;
  /** Word addresses: of the instruction, and of the one after it. */
  readonly pc: number;
  readonly next: number;
  /** From this data address on nothing but bytes: registers below may have side effects. */
  readonly ramStart: number;
}

export const SREG = 95;

/** Word address after the instruction that a skip at `pc` skips, and the cycles of the skip. */
export function skipping({ cpu, pc }: Place): { readonly to: number; readonly cycles: number } {
  const skipped = cpu.progMem[pc + 1] ?? 0;
  // LDS and STS, JMP and CALL have a second word.
  const isLong = (skipped & 0xfc0f) === 0x9000 || (skipped & 0xfe0c) === 0x940c;
  return { to: (pc + (isLong ? 3 : 2)) % cpu.progMem.length, cycles: isLong ? 3 : 2 };
}
