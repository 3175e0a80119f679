/**
 * Where interrupts lead: to the beginning of the flash or, with IVSEL set in MCUCR, to that of the boot section.
 * IVSEL changes only within four cycles of a write with IVCE set (AVR data sheets, MCUCR, from memory).
 */
import type { CPU } from 'avr8js';

const MCUCR = 0x55;
const IVSEL = 0x02;
const IVCE = 0x01;
const WINDOW = 4;

export class BootVectors {
  private readonly cpu: CPU;
  private readonly bootAt: number;
  private openUntil = -1;

  /** `bootAt`: byte address of the boot section. */
  constructor(cpu: CPU, bootAt: number) {
    this.cpu = cpu;
    this.bootAt = bootAt;
    cpu.writeHooks[MCUCR] = (value, before) => {
      if (value & IVCE) this.openUntil = cpu.cycles + WINDOW;
      const free = !(value & IVCE) && cpu.cycles <= this.openUntil;
      cpu.data[MCUCR] = (value & ~(IVSEL | IVCE)) | ((free ? value : before) & IVSEL);
      return true;
    };
  }

  /** Word address that is added to a vector's. */
  get base(): number {
    return (this.cpu.data[MCUCR] ?? 0) & IVSEL ? this.bootAt / 2 : 0;
  }
}
