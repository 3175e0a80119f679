/**
 * Runs a machine. A sleeping CPU is not stepped: the clock jumps to the next
 * thing that can happen, which is what makes a board that sleeps between its
 * ticks run a hundred times faster than real time.
 */
import { avrInstruction, type CPU } from 'avr8js';
import type { Machine } from './machine.ts';

const SLEEP = 0x9588;
const SEI = 0x9478;
const RETI = 0x9518;
const SMCR = 0x53;
const SLEEP_ENABLED = 0x01;
const CTC = 2;
const COMPARE_A_ONLY = 0x02;

interface ClockEvent {
  readonly cycles: number;
  readonly callback: () => void;
  readonly next: ClockEvent | null;
}

/** What the emulator keeps to itself but an exact jump has to know. */
interface TimerInside {
  readonly count: () => void;
  readonly divider: number;
  readonly lastCycle: number;
  readonly tcnt: number;
  readonly ocrA: number;
  readonly timerMode: number;
  readonly tcntUpdated: boolean;
  readonly updateDivider: boolean;
}

/**
 * Runs until the cycle counter is at `until` or just past it (an instruction
 * is not cut), until `machine.stop` is set, or until the word address `stopAt`
 * is about to be executed; true in the last case.
 */
export function runMachine(machine: Machine, until: number, stopAt = -1): boolean {
  const { cpu } = machine;
  const program = cpu.progMem;
  while (cpu.cycles < until && !machine.stop) {
    if (machine.asleep) {
      sleep(machine, until);
      continue;
    }
    if (cpu.pc === stopAt) return true;
    const opcode = program[cpu.pc];
    avrInstruction(cpu);
    // The instruction after SEI and after RETI is executed before any interrupt (instruction set
    // manual); `sei; sleep` depends on it.
    if (opcode === SEI || opcode === RETI) continue;
    if (opcode === SLEEP && (cpu.data[SMCR] ?? 0) & SLEEP_ENABLED) machine.asleep = true;
    else settle(machine);
  }
  return cpu.pc === stopAt && !machine.asleep;
}

/** Does what is due: a clock event first, then at most one interrupt. */
function settle(machine: Machine): void {
  const { cpu } = machine;
  const event = nextEvent(cpu);
  if ((event === null || event.cycles > cpu.cycles) && cpu.nextInterrupt < 0) return;
  const { pc } = cpu;
  cpu.tick();
  if (cpu.pc !== pc) cpu.pc += machine.vectors.base;
}

function sleep(machine: Machine, until: number): void {
  const { cpu } = machine;
  const { pc } = cpu;
  settle(machine);
  // Serving an interrupt is what moves the program counter of a sleeping CPU.
  while (cpu.pc === pc) {
    if (machine.stop || cpu.cycles >= until) return;
    const event = nextEvent(cpu);
    const wake = event ? Math.min(interesting(machine, event), until) : until;
    if (wake > cpu.cycles) cpu.cycles = wake;
    settle(machine);
  }
  machine.asleep = false;
}

/**
 * When the timer's next step does nothing but count, the first cycle that matters
 * is its compare match or the event after it, whichever comes first.
 */
function interesting(machine: Machine, event: ClockEvent): number {
  const timer = machine.timer0 as unknown as TimerInside;
  if (event.callback !== timer.count) return event.cycles;
  const plain =
    timer.timerMode === CTC &&
    timer.divider > 0 &&
    !timer.tcntUpdated &&
    !timer.updateDivider &&
    machine.timer0.TIMSK === COMPARE_A_ONLY;
  if (!plain) return event.cycles;
  const counts = timer.tcnt < timer.ocrA ? timer.ocrA - timer.tcnt : timer.ocrA + 1;
  const match = timer.lastCycle + counts * timer.divider;
  return event.next ? Math.max(event.cycles, Math.min(match, event.next.cycles)) : match;
}

function nextEvent(cpu: CPU): ClockEvent | null {
  return (cpu as unknown as { nextClockEvent: ClockEvent | null }).nextClockEvent;
}
