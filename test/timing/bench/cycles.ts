/** Where the cycles of an emulated chip go: interrupts, work, sleep; and how deep its stack gets. */
import type { CPU } from 'avr8js';
import type { VirtualBoard } from '../../../electron/host/virtual/board.ts';

const RETI = 0x9518;
/**
 * By chip, the response of the hardware to an interrupt (data sheets: four clocks at least, five with a program counter
 * of 22 bits) and the word address behind the last vector.
 */
const INTERRUPTS = { atmega328p: { response: 4, end: 52 }, atmega2560: { response: 5, end: 114 } } as const;

export interface CycleUse {
  readonly cycles: number;
  /** In interrupts, the response of the hardware included, as a share of all cycles. */
  readonly interruptShare: number;
  /** Not asleep, as a share of all cycles. */
  readonly awakeShare: number;
  /** From each waking of the chip to its next sleep, microseconds; nothing of a program that never sleeps. */
  readonly meanAwakeMicroseconds: number;
  readonly worstAwakeMicroseconds: number;
  /** Bytes between the top of RAM and the lowest stack pointer seen. */
  readonly stackBytes: number;
}

/** What the emulator keeps to itself: the bench reads it and changes nothing. */
interface Inside {
  readonly machine: { readonly cpu: CPU; readonly asleep: boolean } | null;
}

/** Lets board time pass instruction by instruction, and counts. Slower than `board.run`; the board does the same. */
export class CycleMeter {
  private readonly board: VirtualBoard;
  private total = 0;
  private interrupts = 0;
  private asleep = 0;
  private awakeSince: number | null = null;
  private readonly spans = { count: 0, sum: 0, worst: 0 };
  private lowest = Number.POSITIVE_INFINITY;
  private depth = 0;

  constructor(board: VirtualBoard) {
    this.board = board;
  }

  run(cycles: number): void {
    const { board } = this;
    const until = board.cycles + cycles;
    const machine = (board as unknown as Inside).machine;
    if (!machine) throw new Error('the board has no power');
    const { cpu } = machine;
    const { response, end } = INTERRUPTS[board.profile.chip];
    while (cpu.cycles < until) {
      const before = cpu.cycles;
      const wasAsleep = machine.asleep;
      const isLeaving = !wasAsleep && cpu.progMem[cpu.pc] === RETI;
      board.runUntil(wasAsleep ? Math.max(before + 1, Math.min(until, wakes(cpu))) : before + 1);
      const took = cpu.cycles - before;
      this.total += took;
      if (wasAsleep) this.asleep += took;
      else if (this.depth > 0) this.interrupts += took;
      if (isLeaving) this.depth -= 1;
      // Only an interrupt goes into the vectors: a reset would end the run.
      if (cpu.pc > 0 && cpu.pc < end) {
        this.depth += 1;
        this.interrupts += response;
      }
      this.lowest = Math.min(this.lowest, cpu.SP);
      this.span(wasAsleep, machine.asleep, cpu.cycles);
    }
  }

  result(): CycleUse {
    const { total, spans, board } = this;
    const perMicrosecond = 16;
    return {
      cycles: total,
      interruptShare: this.interrupts / total,
      awakeShare: 1 - this.asleep / total,
      meanAwakeMicroseconds: spans.count ? spans.sum / spans.count / perMicrosecond : 0,
      worstAwakeMicroseconds: spans.worst / perMicrosecond,
      stackBytes: board.profile.ramBytes + 0xff - this.lowest,
    };
  }

  private span(wasAsleep: boolean, isAsleep: boolean, now: number): void {
    if (wasAsleep && !isAsleep) this.awakeSince = now;
    if (wasAsleep || !isAsleep || this.awakeSince === null) return;
    const took = now - this.awakeSince;
    this.awakeSince = null;
    this.spans.count += 1;
    this.spans.sum += took;
    this.spans.worst = Math.max(this.spans.worst, took);
  }
}

/** Cycle of the next thing that can end a sleep: now for an interrupt that waits. */
function wakes(cpu: CPU): number {
  const { nextClockEvent } = cpu as unknown as { readonly nextClockEvent: { readonly cycles: number } | null };
  return cpu.nextInterrupt >= 0 ? cpu.cycles : (nextClockEvent?.cycles ?? Number.POSITIVE_INFINITY);
}

export interface RoundTimes {
  readonly rounds: number;
  readonly meanMicroseconds: number;
  readonly worstMicroseconds: number;
}

/** Times between one arrival at a function and the next, for so long. Throws when it is not reached within a second. */
export function roundTimes(board: VirtualBoard, address: number, ms: number): RoundTimes {
  board.runToAddress(address, 16_000_000);
  const began = board.cycles;
  let rounds = 0;
  let worst = 0;
  for (let before = began; before < began + ms * 16_000; rounds++) {
    board.run(1);
    board.runToAddress(address, 16_000_000);
    worst = Math.max(worst, board.cycles - before);
    before = board.cycles;
  }
  return { rounds, meanMicroseconds: (board.cycles - began) / rounds / 16, worstMicroseconds: worst / 16 };
}
