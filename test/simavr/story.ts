/**
 * What happens to a board from outside, at given cycles: the same story is played in both emulators. The newline
 * that ends a request, and each level, come in the middle of a millisecond of the board, so that a difference of
 * some cycles never moves them to another tick.
 */
import { encodeRequest } from '../../shared/link/line.ts';
import type { Chip } from '../../shared/table/format.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { hex, hex4 } from '../firmware/host/play.ts';
import { CYCLES_PER_MS } from '../timing/rig.ts';
import { tickPhase } from './phase.ts';

/** Ten bits at the divisor of the firmware. */
export const BYTE_CYCLES = 2800;

export type Event = { readonly at: number } & (
  | { readonly what: 'power'; readonly on: boolean }
  | { readonly what: 'reset' }
  /** The end of the byte's stop bit is at `at`. */
  | { readonly what: 'byte'; readonly byte: number }
  | { readonly what: 'pin'; readonly pin: number; readonly level: 0 | 1 }
  /** Only tells that the time passes. */
  | { readonly what: 'run' }
);

export class Story {
  readonly chip: Chip;
  /** What the EEPROM holds at first; null: blank. */
  readonly eeprom: Uint8Array | null;
  readonly events: Event[] = [];
  /** Cycles of power-on and reset. */
  readonly switched: number[] = [];
  /** Cycles from which on the first edge of a lamp is that of a table's start. */
  readonly starts: number[] = [];
  now = 0;
  private tick = 0;
  private sequence = 0;

  constructor(chip: Chip, eeprom: Uint8Array | null = null) {
    this.chip = chip;
    this.eeprom = eeprom;
  }

  power(on: boolean): this {
    this.events.push({ at: this.now, what: 'power', on });
    if (on) this.started();
    return this;
  }

  /** A pulse at the reset pin. */
  reset(): this {
    this.events.push({ at: this.now, what: 'reset' });
    this.started();
    return this;
  }

  wait(ms: number): this {
    this.now += ms * CYCLES_PER_MS;
    this.events.push({ at: this.now, what: 'run' });
    return this;
  }

  pin(pin: number, level: 0 | 1): this {
    this.now = this.quietFrom(this.now);
    this.events.push({ at: this.now, what: 'pin', pin, level });
    return this;
  }

  /** A request whose newline ends in the next quiet moment. */
  ask(word: string, ...args: (string | number)[]): this {
    this.sequence = (this.sequence + 1) & 0xff;
    return this.bytes(new TextEncoder().encode(encodeRequest(this.sequence, word, args)));
  }

  /** Bytes without a gap, the last of them in a quiet moment. */
  bytes(bytes: Uint8Array): this {
    const end = this.quietFrom(this.now + (bytes.length + 1) * BYTE_CYCLES);
    for (const [index, byte] of bytes.entries()) {
      this.events.push({ at: end - (bytes.length - 1 - index) * BYTE_CYCLES, what: 'byte', byte });
    }
    this.now = end;
    return this;
  }

  /** Sends an image and starts it; each step is given the time that it may take. */
  upload(image: Uint8Array): this {
    this.ask('begin', image.length, hex4(imageCrc(image))).wait(150);
    for (let at = 0; at < image.length; at += 16) {
      this.ask('part', at, hex(image.subarray(at, at + 16))).wait(100);
    }
    this.ask('start').starts.push(this.now);
    // No lamp of the tables that are sent has another edge so soon.
    return this.wait(400);
  }

  private started(): void {
    this.switched.push(this.now);
    this.starts.push(this.now);
    this.tick = this.now + tickPhase(this.chip);
  }

  private quietFrom(cycles: number): number {
    const first = this.tick + CYCLES_PER_MS / 2;
    return first + Math.max(0, Math.ceil((cycles - first) / CYCLES_PER_MS)) * CYCLES_PER_MS;
  }
}
