/**
 * USART 0 with what matters to a protocol: bytes take their time on the line in
 * both directions, two received bytes wait behind the shift register, a further
 * one is lost, and a receiver off by more than 4 % reads garbage (AVR data
 * sheets: +3.9/-4.0 % at most with double speed). 8 data bits, no parity, 1 stop bit.
 */
import type { CPU } from 'avr8js';
import { CPU_HZ, type UsartRegisters } from './chips.ts';

const RXC = 0x80;
const TXC = 0x40;
const UDRE = 0x20;
const DOR = 0x08;
const U2X = 0x02;
const RXEN = 0x10;
const TXEN = 0x08;
const BITS_PER_BYTE = 10;
const TOLERANCE = 0.04;

export class Usart {
  /** Bytes that arrived while three waited, or while the receiver was off. */
  lost = 0;
  private readonly cpu: CPU;
  private readonly regs: UsartRegisters;
  private readonly baud: number;
  private readonly sent: (byte: number) => void;
  private readonly fifo: number[] = [];
  private readonly line: number[] = [];
  private lineFreeAt = 0;
  private arriving = false;
  private shifting = false;
  private buffered: number | null = null;
  private readonly rxInterrupt;
  private readonly emptyInterrupt;
  private readonly txInterrupt;

  constructor(cpu: CPU, regs: UsartRegisters, baud: number, sent: (byte: number) => void) {
    this.cpu = cpu;
    this.regs = regs;
    this.baud = baud;
    this.sent = sent;
    const both = { flagRegister: regs.UCSRA, enableRegister: regs.UCSRB };
    // Receive and empty are levels: they ask again until the data register is read or written.
    this.rxInterrupt = { ...both, address: regs.rxVector, flagMask: RXC, enableMask: 0x80, constant: true };
    this.emptyInterrupt = { ...both, address: regs.udreVector, flagMask: UDRE, enableMask: 0x20, constant: true };
    this.txInterrupt = { ...both, address: regs.txVector, flagMask: TXC, enableMask: 0x40 };
    cpu.data[regs.UCSRA] = UDRE;
    cpu.data[regs.UCSRC] = 0x06;
    this.hook();
  }

  /** Bytes that the far end has begun to send or still holds. */
  get waiting(): number {
    return this.line.length;
  }

  /** Sends bytes to the board, one after the other at the rate of the line. */
  receive(bytes: Uint8Array): void {
    this.line.push(...bytes);
    this.nextFromLine();
  }

  private hook(): void {
    const { cpu, regs } = this;
    cpu.writeHooks[regs.UCSRA] = (value) => {
      const kept = (cpu.data[regs.UCSRA] ?? 0) & (RXC | TXC | UDRE | DOR);
      cpu.data[regs.UCSRA] = kept | (value & U2X);
      if (value & TXC) cpu.clearInterrupt(this.txInterrupt);
      return true;
    };
    cpu.writeHooks[regs.UCSRB] = (value) => {
      cpu.data[regs.UCSRB] = value;
      if (!(value & RXEN)) {
        this.fifo.length = 0;
        cpu.clearInterrupt(this.rxInterrupt);
      }
      for (const interrupt of [this.rxInterrupt, this.emptyInterrupt, this.txInterrupt]) {
        cpu.updateInterruptEnable(interrupt, value);
      }
      return true;
    };
    cpu.readHooks[regs.UDR] = () => this.read();
    cpu.writeHooks[regs.UDR] = (value) => {
      this.transmit(value);
      return true;
    };
  }

  private read(): number {
    const { cpu, regs } = this;
    const byte = this.fifo.shift() ?? 0;
    cpu.data[regs.UCSRA] = (cpu.data[regs.UCSRA] ?? 0) & ~DOR;
    if (this.fifo.length === 0) cpu.clearInterrupt(this.rxInterrupt);
    return byte;
  }

  private transmit(byte: number): void {
    if (!((this.cpu.data[this.regs.UCSRB] ?? 0) & TXEN) || this.buffered !== null) return;
    if (this.shifting) {
      this.buffered = byte;
      this.cpu.clearInterrupt(this.emptyInterrupt);
    } else this.shift(byte);
  }

  private shift(byte: number): void {
    const { cpu } = this;
    this.shifting = true;
    cpu.addClockEvent(() => {
      this.shifting = false;
      this.sent(this.overTheLine(byte));
      if (this.buffered === null) {
        cpu.setInterruptFlag(this.txInterrupt);
        return;
      }
      const next = this.buffered;
      this.buffered = null;
      cpu.setInterruptFlag(this.emptyInterrupt);
      this.shift(next);
    }, this.cyclesPerBit * BITS_PER_BYTE);
  }

  private nextFromLine(): void {
    if (this.arriving || this.line.length === 0) return;
    this.arriving = true;
    const { cpu } = this;
    const done = Math.max(cpu.cycles, this.lineFreeAt) + (CPU_HZ / this.baud) * BITS_PER_BYTE;
    this.lineFreeAt = done;
    cpu.addClockEvent(() => {
      this.arriving = false;
      const byte = this.line.shift();
      if (byte !== undefined) this.arrive(this.overTheLine(byte));
      this.nextFromLine();
    }, Math.ceil(done) - cpu.cycles);
  }

  private arrive(byte: number): void {
    const { cpu, regs } = this;
    const full = this.fifo.length >= 3;
    if (full || !((cpu.data[regs.UCSRB] ?? 0) & RXEN)) {
      this.lost += 1;
      if (full) cpu.data[regs.UCSRA] = (cpu.data[regs.UCSRA] ?? 0) | DOR;
      return;
    }
    this.fifo.push(byte);
    cpu.setInterruptFlag(this.rxInterrupt);
  }

  private get cyclesPerBit(): number {
    const { data } = this.cpu;
    const divisor = (data[this.regs.UBRRH] ?? 0) * 256 + (data[this.regs.UBRRL] ?? 0) + 1;
    return divisor * ((data[this.regs.UCSRA] ?? 0) & U2X ? 8 : 16);
  }

  private overTheLine(byte: number): number {
    const error = CPU_HZ / this.cyclesPerBit / this.baud - 1;
    return Math.abs(error) <= TOLERANCE ? byte : byte ^ 0xb5;
  }
}
