/** One direction of a serial line: bytes arrive in order, each write when its last byte is through. */
import type { Clock } from '../../../electron/host/clock.ts';
import type { ByteFault } from './faults.ts';

const BITS_PER_BYTE = 10;

export class Wire {
  private readonly clock: Clock;
  private readonly arrived: (bytes: Uint8Array) => void;
  private fault: ByteFault | null = null;
  private count = 0;
  private freeAt = 0;
  private cancels = new Set<() => void>();

  constructor(clock: Clock, arrived: (bytes: Uint8Array) => void) {
    this.clock = clock;
    this.arrived = arrived;
  }

  /** From here on bytes are counted from 0 and this happens to them. */
  setFault(fault: ByteFault | null): void {
    this.fault = fault;
    this.count = 0;
  }

  send(bytes: Uint8Array, baud: number, lateMs = 0): void {
    let piece: number[] = [];
    let late = lateMs;
    const flush = (): void => {
      if (piece.length > 0) this.carry(Uint8Array.from(piece), baud, late);
      piece = [];
      late = 0;
    };
    for (const byte of bytes) {
      const fate = this.fault?.(byte, this.count++) ?? { bytes: [byte] };
      if (fate.lateMs) {
        flush();
        late = fate.lateMs;
      }
      piece.push(...fate.bytes);
    }
    flush();
  }

  /** What is on its way is lost. */
  clear(): void {
    for (const cancel of this.cancels) cancel();
    this.cancels.clear();
    this.freeAt = 0;
  }

  private carry(bytes: Uint8Array, baud: number, lateMs: number): void {
    const now = this.clock.now();
    this.freeAt = Math.max(this.freeAt, now) + lateMs + (bytes.length * BITS_PER_BYTE * 1000) / baud;
    const cancel = this.clock.setTimer(this.freeAt - now, () => {
      this.cancels.delete(cancel);
      this.arrived(bytes);
    });
    this.cancels.add(cancel);
  }
}
